package prepare

import (
	"fmt"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// onTheDay is "at 10:00", with its date where that is not the other's.
func onTheDay(at, other time.Time) string {
	if at.Format(time.DateOnly) == other.Format(time.DateOnly) {
		return "at " + day.Clock(at)
	}
	return "on " + at.Format("Mon 2 Jan") + " at " + day.Clock(at)
}

// Lasting is Long, but from two days on in days and hours: "7 days 3 h".
func Lasting(d time.Duration) string {
	if d < 48*time.Hour {
		return day.Long(d)
	}
	hours := int(d.Round(time.Hour) / time.Hour)
	if hours%24 == 0 {
		return fmt.Sprintf("%d days", hours/24)
	}
	return fmt.Sprintf("%d days %d h", hours/24, hours%24)
}

func degreesOf(t quantity.Range[quantity.Temperature], sys quantity.System) string {
	low, unit := t.Low.Figure(sys)
	high, _ := t.High.Figure(sys)
	return low + "–" + high + " " + unit
}
