package screen

import (
	"testing"
	"time"
)

// What is typed is read whole or not at all: half a figure taken for a whole one would be a wrong dose or a wrong time.
func TestTypedFiguresAreReadWhole(t *testing.T) {
	for text, want := range map[string]float64{"10.5": 10.5, "10,5": 10.5, " 9 ": 9, "0": 0, "14": 14} {
		if got, err := (Typing{Text: text}).PH(); err != nil || got != want {
			t.Errorf("pH %q is read as %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "10.5x", "15", "-1", "NaN", "1,0,5", "Inf"} {
		if got, err := (Typing{Text: text}).PH(); err == nil {
			t.Errorf("pH %q is read as %v", text, got)
		}
	}
	now := time.Date(2026, 3, 28, 12, 0, 0, 0, time.UTC)
	for text, want := range map[string]time.Time{
		"10:42": now.Add(-78 * time.Minute), "9.05": now.Add(-175 * time.Minute), "11h30": now.Add(-30 * time.Minute), "23:00": now.Add(-13 * time.Hour),
	} {
		if got, err := (Typing{Text: text}).Hour(now); err != nil || !got.Equal(want) {
			t.Errorf("%q is read as %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "10", "10:42x", "25:00", "10:60", "10:42:30"} {
		if got, err := (Typing{Text: text}).Hour(now); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}
