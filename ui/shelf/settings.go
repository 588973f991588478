package shelf

import (
	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
)

// Settings are what the dyer set once for all days. A day keeps its own copy of what it goes by. Each has its row in Table.
type Settings struct {
	Units     string               `toml:"units"`              // metric, us, imperial
	GoingOn   bool                 `toml:"going_on"`           // a time that ran out goes on by itself; false: it waits
	Entries   bool                 `toml:"entries"`            // where it goes on, a piece that has aired is taken as lowered too
	NoLook    bool                 `toml:"no_look"`            // the look that decides is not asked for
	Theme     string               `toml:"theme"`              // auto, dark, light, sun
	Place     string               `toml:"place"`              // outdoors, cross-draught, closed room; empty: asked each day
	Emergency string               `toml:"emergency"`          // the dyer's own emergency number
	Cold      quantity.Temperature `toml:"cold"`               // of the cold water
	Hot       quantity.Temperature `toml:"hot"`                // of the hot water
	ReadyBy   string               `toml:"ready_by,omitempty"` // when the first piece should go in, 10:00; empty: no wish
	DoneBy    string               `toml:"done_by,omitempty"`  // when every piece should be done
	Hour      quantity.Money       `toml:"hour,omitzero"`      // what an hour of the dyer costs, in the dyer's own currency; 0: not told
	KWh       quantity.Money       `toml:"kwh,omitzero"`       // what a kilowatt-hour of heat costs
	Board     bool                 `toml:"board"`              // a board of the day as a page, where pieces are people's
	Click     string               `toml:"click"`              // what a click does: ClickUnder or ClickAnywhere
	day.Gear
	Sound Sounds `toml:"sound"`
}

// Sounds are the ways in which a cue may be heard.
type Sounds struct {
	Bell   bool `toml:"bell"`
	Tone   bool `toml:"tone"`
	Speech bool `toml:"speech"`
	Notice bool `toml:"notice"` // a word on the desktop
	Flash  bool `toml:"flash"`  // the window reversed while something is late
}

// What a click does: what the thing under it says, or the call's press wherever it is, for a pedal that is a mouse.
const ClickUnder, ClickAnywhere = "under it", "the call anywhere"

// Anywhere tells whether a click is the call's press wherever it is.
func (s Settings) Anywhere() bool { return s.Click == ClickAnywhere }

// Defaults are the settings of a home that has none.
func Defaults() Settings {
	return Settings{Units: "metric", GoingOn: true, Theme: "auto", Cold: 15, Hot: 60, Click: ClickUnder, Board: true, Sound: Sounds{Bell: true, Tone: true, Notice: true, Flash: true}}
}

// System is the system of units.
func (s Settings) System() quantity.System { return day.Setup{Units: s.Units}.System() }
