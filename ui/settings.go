package ui

import (
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/shelf"
)

// settingsOut is the settings as screens see them.
func settingsOut(s shelf.Settings) screen.Settings {
	return screen.Settings{
		Units: s.Units, Waiting: !s.GoingOn, NoLook: s.NoLook, Theme: s.Theme, Place: s.Place, Emergency: s.Emergency, Anywhere: s.Click == shelf.ClickAnywhere, Hour: s.Hour, KWh: s.KWh, Cold: s.Cold.String(), Hot: s.Hot.String(),
		ReadyBy: s.ReadyBy, DoneBy: s.DoneBy, Gear: s.Gear,
	}
}

// settingsIn puts what a screen changed into the settings on disk.
func settingsIn(old shelf.Settings, s screen.Settings) (shelf.Settings, error) {
	old.Units, old.GoingOn, old.NoLook, old.Theme, old.Place, old.Emergency = s.Units, !s.Waiting, s.NoLook, s.Theme, s.Place, s.Emergency
	old.ReadyBy, old.DoneBy, old.Gear, old.Hour, old.KWh = s.ReadyBy, s.DoneBy, s.Gear, s.Hour, s.KWh
	old.Click = shelf.ClickUnder
	if s.Anywhere {
		old.Click = shelf.ClickAnywhere
	}
	var err error
	if old.Cold, err = quantity.ParseTemperature(s.Cold, quantity.Metric); err != nil {
		return old, err
	}
	old.Hot, err = quantity.ParseTemperature(s.Hot, quantity.Metric)
	return old, err
}
