package outlook_test

import (
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
)

// A °C that cold water has brought about is reckoned, however lately the liquor was read.
func TestAReckonedDegreeIsNotARead(t *testing.T) {
	v := open(t, "soda", nil)
	v.reads(39)
	if h := v.sight().Heat; h.Known != outlook.Measured || h.Now != 39 {
		t.Errorf("as read: %v, %v", h.Now, h.Known)
	}
	v.put(day.DrawnOff{Liquor: 12})
	v.after(1).put(day.ToppedUp{Water: 12, Temp: 10})
	h := v.sight().Heat
	if h.Known != outlook.Reckoned || h.Now > 36 {
		t.Errorf("after 12 L of cold water: %v, %v", h.Now, h.Known)
	}
	v.reads(quantity.Celsius(33).Celsius())
	if h := v.sight().Heat; h.Known != outlook.Measured || h.Now != 33 {
		t.Errorf("read again: %v, %v", h.Now, h.Known)
	}
}

// What is left of a vat's reducer is of its own kind the next day too: iron that the air takes changes no pH.
func TestAReducerKeepsItsKind(t *testing.T) {
	v := open(t, "iron-lime", nil)
	v.put(day.Closed{})
	head, err := outlook.Next(v.s, false)
	if err != nil {
		t.Fatal(err)
	}
	w := open(t, "iron-lime", func(h *day.Head) { h.Opening = head.Opening })
	w.after(12 * 60).put(day.Closed{})
	if spent := outlook.Carry(w.s).Spent; spent != 0 {
		t.Errorf("iron that the air took counts as %v of dithionite", spent)
	}
}
