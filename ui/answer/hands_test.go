package answer

import (
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
)

// A limit of no people is refused with what lifts it.
func TestALimitOfNobodyIsRefused(t *testing.T) {
	if _, _, _, err := Take(day.State{}, time.Time{}, "hands 2 at most 0"); err == nil || !strings.Contains(err.Error(), "at most 0 people at the vat: say 1 or more, or hands 2 alone for no limit") {
		t.Errorf("it gives %v", err)
	}
}
