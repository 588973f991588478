package shelf

import "example.org/vatside/model/book"

// Glance is the newest day of a vat by its name, with its spills, if it is open and whole as far as its head: what the first
// screen shows before all days of the vat are looked at. False where it is closed, where it cannot be read, or where there is
// none. Which day is the newest by its events, and whether another one is open too, VatDays says.
func (h Home) Glance(vat string) (name string, b book.Book, ok bool) {
	names, _ := h.named(vat) // what cannot be read is told by VatDays
	if len(names) == 0 {
		return "", b, false
	}
	name = names[len(names)-1]
	text, info, err := h.dayText(vat, name)
	if err != nil || closedAtEnd(text, h.now()) {
		return name, b, false
	}
	if b = understood(h.now(), h.DayFile(vat, name), text, h.sighted(info, text)); b.Empty() || b.HeadErr != nil {
		return name, b, false
	}
	return name, b.With(h.now(), text, h.spills(vat, name, b.Frame)), true
}
