package guard

import (
	"strings"
	"testing"
)

func TestTryTellsNothingOfTheDyer(t *testing.T) {
	var told []Crash
	Reports(func(c Crash) { told = append(told, c) })
	defer Reports(nil)
	secret := "the bride's linen"
	for _, f := range []func(){
		func() { panic(secret) },
		func() { slip(secret, nil) },
	} {
		c := Try("engine", f)
		if c == nil {
			t.Fatal("a panic went by")
		}
		text := c.Error() + c.Stack
		if strings.Contains(text, secret) || strings.Contains(text, "0x") {
			t.Errorf("the report holds values:\n%s", text)
		}
		if !strings.Contains(c.Stack, "guard_test.go") {
			t.Errorf("the stack does not say where:\n%s", c.Stack)
		}
	}
	Inject(func(where string) {
		if where == "advice" {
			panic(ErrInjected)
		}
	})
	defer Inject(nil)
	if c := Try("advice", func() {}); c == nil || c.What != ErrInjected.Error() {
		t.Errorf("injected: %v", c)
	}
	if len(told) != 3 {
		t.Errorf("%d of 3 crashes were reported", len(told))
	}
	if c := Try("engine", func() {}); c != nil {
		t.Errorf("a crash out of nothing: %v", c)
	}
}

func slip(s string, at []int) int { return at[len(s)] }

func TestACrashedGoroutineEndsTheProgram(t *testing.T) {
	defer Forget()
	Go("engine", func() { panic("x") })
	<-Fatal()
	if c, ok := Why(); !ok || c.Where != "engine" {
		t.Errorf("why: %v %v", c, ok)
	}
	End(Crash{Where: "later"})
	if c, _ := Why(); c.Where != "engine" {
		t.Errorf("the first crash is not the one that is told: %v", c)
	}
}
