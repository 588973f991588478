package engine_test

import (
	"reflect"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/ui/engine"
)

// A snapshot in which anything else is shown than before is never taken for one that need not be drawn.
func TestStands(t *testing.T) {
	at := time.Date(2026, 11, 29, 9, 31, 5, 0, time.UTC)
	make := func(change func(*engine.View)) engine.Snapshot {
		v := engine.View{ID: "bin/2026-11-29", Now: at, State: day.State{Seq: 3, Log: []day.Event{{}, {}, {}}}}
		change(&v)
		return engine.Snapshot{Wall: at, Days: []engine.View{v}, Resting: true}
	}
	was := make(func(*engine.View) {})
	if later := make(func(v *engine.View) { v.Now = at.Add(54 * time.Second) }); !later.Stands(was) {
		t.Error("one of the same minute is drawn again")
	}
	for what, s := range map[string]engine.Snapshot{
		"another minute": make(func(v *engine.View) { v.Now = at.Add(55 * time.Second) }),
		"an event":       make(func(v *engine.View) { v.State.Log = append(v.State.Log, day.Event{}) }),
		"an outlook":     make(func(v *engine.View) { v.Outlook = &outlook.Outlook{} }),
		"a forecast":     make(func(v *engine.View) { v.Blue = &outlook.Blue{} }),
		"a timetable":    make(func(v *engine.View) { v.Table = &outlook.Table{} }),
		"no day":         {Wall: at, Resting: true},
		"a running time": {Wall: at, Days: was.Days},
		"a later clock":  {Wall: at.Add(time.Minute), Days: was.Days, Resting: true},
	} {
		if s.Stands(was) || was.Stands(s) {
			t.Errorf("%s is not drawn", what)
		}
	}
	for i := range reflect.TypeFor[engine.View]().NumField() {
		name := reflect.TypeFor[engine.View]().Field(i).Name
		s := make(func(v *engine.View) {
			switch f := reflect.ValueOf(v).Elem().Field(i); f.Kind() {
			case reflect.String:
				f.SetString("other")
			case reflect.Bool:
				f.SetBool(true)
			case reflect.Int:
				f.SetInt(f.Int() + 1)
			default:
				name = ""
			}
		})
		if name != "" && s.Stands(was) {
			t.Errorf("another %s is not drawn", name)
		}
	}
}
