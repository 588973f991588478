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
		for d := range days {
			on := newest.AddDate(0, 0, -3*(d+1))
			head := longday.Head(soda)
			head.Vat, head.Day, head.Opening.Number = vat, on.Format(time.DateOnly), days-d+1
			all := longday.Events(events)
			all[len(all)-1].Body = day.Closed{Why: "dusk"}
			for i := range all {
				all[i].At = all[i].At.Add(on.Sub(longday.Morning))
				if c, is := all[i].Body.(day.Corrected); is && c.To != nil {
					c.To = new(c.To.Add(on.Sub(longday.Morning)))
					all[i].Body = c
				}
			}
			path := filepath.Join(dir, "vats", vat, head.Day+".toml")
			apart.Write(path, written(head, all))
			apart.Must(os.Chtimes(path, time.Time{}, time.Now().Add(-time.Hour))) // the index waits until a file is still
		}
	}
	apart.Quiet(dir)
	return dir
}

// written is the text of a day's file.
func written(head day.Head, events []day.Event) []byte {
	text := apart.Got(book.EncodeHead(head))
	for _, e := range events {
		text = append(append(text, '\n'), apart.Got(book.EncodeEvent(e))...)
	}
	return text
}
