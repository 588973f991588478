package main

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/recipes"
	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/longday"
)

// home is a home with so many closed days of so many events at each of so many vats. The newest was three days ago.
func home(dir string, vats, days, events int) string {
	newest := time.Now().UTC().Truncate(24 * time.Hour).Add(longday.Morning.Sub(longday.Morning.Truncate(24 * time.Hour)))
	soda, _ := recipes.Find("soda")
	for v := range vats {
		vat := fmt.Sprintf("vat-%d", v)
		folder := filepath.Join(dir, "vats", vat)
		apart.Must(os.MkdirAll(folder, 0o755))
		for d := range days {
			on := newest.AddDate(0, 0, -3*(d+1))
			head := longday.Head(soda)
			head.Vat, head.Day, head.Opening.Number = vat, on.Format(time.DateOnly), days-d+1
			text, err := book.EncodeHead(head)
			apart.Must(err)
			all := longday.Events(events)
			all[len(all)-1].Body = day.Closed{Why: "dusk"}
			for _, e := range all {
				e.At = e.At.Add(on.Sub(longday.Morning))
				if c, is := e.Body.(day.Corrected); is && c.To != nil {
					to := c.To.Add(on.Sub(longday.Morning))
					c.To = &to
					e.Body = c
				}
				block, err := book.EncodeEvent(e)
				apart.Must(err)
				text = append(append(text, '\n'), block...)
			}
			path := filepath.Join(folder, head.Day+".toml")
			apart.Must(os.WriteFile(path, text, 0o644))
			apart.Must(os.Chtimes(path, time.Time{}, time.Now().Add(-time.Hour))) // the index waits until a file is still
		}
	}
	apart.Quiet(dir)
	return dir
}
