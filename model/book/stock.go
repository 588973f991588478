package book

import (
	"errors"
	"fmt"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/stock"
)

// stockFormat is the number of the form of the stock's file that this version writes.
const stockFormat = 1

// stockKinds are the bodies of the stock that this version knows.
var stockKinds = named(stock.Kinds())

// Stock is the file of the stock as it was read: a short head and the events after it, in the same blocks as a day's.
type Stock struct {
	Frame
	Events []stock.Event
}

// ReadStock reads the stock's file. It never fails: what is wrong with the file stands in the Stock. A file that was
// killed before its head was whole is torn from its beginning. file and today are as for ReadOn.
func ReadStock(today time.Time, file string, data []byte) Stock {
	var s Stock
	s.Frame = frame(today, file, data, stockKinds, readStockHead, func(e day.Event, _ []byte) {
		s.Events = append(s.Events, stock.Event{Seq: e.Seq, At: e.At, Body: e.Body})
	})
	if s.headTorn {
		s.Torn, s.TornAt, s.TornLine = data, 0, 1
	}
	return s
}

func readStockHead(text []byte) error {
	tree, err := decode(text)
	if err != nil {
		return err
	}
	return formatUpTo(tree, stockFormat)
}

// formatUpTo refuses a head that names no format, or a later one than the newest.
func formatUpTo(tree map[string]any, newest int64) error {
	switch n, ok := tree["format"].(int64); {
	case !ok || n < 1:
		return errors.New("it has no format, a number from 1")
	case n > newest:
		return fmt.Errorf("its format %d is of a later version: this one reads format %d", n, newest)
	}
	return nil
}

// EncodeStockHead is the block of the head, its end line included.
func EncodeStockHead() []byte { return closed(fmt.Appendf(nil, "format = %d\n", stockFormat), 0) }

// EncodeStock is the block of an event of the stock, as EncodeEvent is that of a day's.
func EncodeStock(e stock.Event) ([]byte, error) {
	return encode(day.Event{Seq: e.Seq, At: e.At, Body: e.Body}, stockKinds)
}
