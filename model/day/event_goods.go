package day

import (
	"time"

	"example.org/vatside/model/quantity"
)

// What happened to the goods, before their dips, in them and after; event.go has the rest.
type (
	// PieceAdded puts a piece on the day's list.
	PieceAdded struct {
		OfPiece
		PieceSpec
	}
	// PieceChanged replaces what was said of a piece.
	PieceChanged struct {
		OfPiece
		PieceSpec
	}
	// PieceDropped takes a piece off the list.
	PieceDropped struct {
		OfPiece
		Reason string `toml:"reason,omitempty"`
	}
	// GoodsAsked says that what is to be dyed is on the list, or that nothing is yet.
	GoodsAsked struct{}
	// Readied says what was done to a piece before its first dip, or that it was left out.
	Readied struct {
		OfPiece
		What string `toml:"what"` // ToScour or ToSoak
		Left bool   `toml:"left,omitempty"`
	}
	// WettedOut says that the piece is wet through.
	WettedOut struct {
		OfPiece
	}
	// DipBegun is a piece lowered in. CountIn passes before the dip counts.
	DipBegun struct {
		OfPiece
		Dip     int           `toml:"dip"`
		For     quantity.Span `toml:"for"`
		CountIn quantity.Span `toml:"count_in,omitzero"`
		When    *time.Time    `toml:"when,omitempty"` // told afterwards: when it really was
		Assumption
	}
	// DipEnded is the piece lifted out; its airing begins.
	DipEnded struct {
		OfPiece
		Dip  int           `toml:"dip"`
		Air  quantity.Span `toml:"air"`
		When *time.Time    `toml:"when,omitempty"`
		Assumption
	}
	// AiringEnded says that no green is left.
	AiringEnded struct {
		OfPiece
		Dip     int        `toml:"dip"`
		When    *time.Time `toml:"when,omitempty"`
		Assumed bool       `toml:"assumed,omitempty"` // with the dip after it, which is what waits for a word
	}
	// LookedAt is what a piece looks like: a rung, a colour, a depth name. Or, without Looks, what the look after its dip number
	// Dips came to: Said is one of LookSays.
	LookedAt struct {
		OfPiece
		Looks  string `toml:"looks,omitempty"`
		Wet    bool   `toml:"wet,omitempty"`
		Rinsed bool   `toml:"rinsed,omitempty"`
		Dips   int    `toml:"dips,omitzero"`
		Said   string `toml:"said,omitempty"`
	}
	// SwatchJudged is a strip compared or measured: the one that was cut off the piece or the ladder tagged Swatch after its
	// dip number Dips, rinsed and ironed dry.
	SwatchJudged struct {
		Swatch string `toml:"swatch"`
		Looks  string `toml:"looks"`
		Dips   int    `toml:"dips,omitzero"`
	}
	// Rinsed is one rinse in plain water.
	Rinsed struct {
		OfPiece
	}
	// BathBegun puts a piece into a bath after its last dip: rinse, sour, soap or citric; its time runs.
	BathBegun struct {
		OfPiece
		Bath string        `toml:"bath"`
		For  quantity.Span `toml:"for"`
	}
	// LeftOut leaves a step after the last dip out.
	LeftOut struct {
		OfPiece
		What   string `toml:"what"`
		Reason string `toml:"reason"`
	}
	// Soured is a bath in weak acid, after its gate. Whites is the hot one that clears greyed whites.
	Soured struct {
		OfPiece
		With   string `toml:"with,omitempty"`
		Whites bool   `toml:"whites,omitempty"`
	}
	// Soaped is a wash in neutral soap.
	Soaped struct {
		OfPiece
		Temp quantity.Temperature `toml:"temp,omitzero"`
	}
	// Dried is the piece dry.
	Dried struct {
		OfPiece
	}
	// CrockTested is the rubbing test, by the grey scale 5 to 1.
	CrockTested struct {
		OfPiece
		Dry float64 `toml:"dry,omitzero"`
		Wet float64 `toml:"wet,omitzero"`
	}
	// Finished ends the work on a piece.
	Finished struct {
		OfPiece
		Dips int `toml:"dips"`
	}
	// CarriedOver hands a piece on to another day or vat, with the dips it has.
	CarriedOver struct {
		OfPiece
		To   string `toml:"to,omitempty"`
		Dips int    `toml:"dips"`
	}
)
