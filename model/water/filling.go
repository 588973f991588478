package water

import (
	"cmp"
	"math"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// What one carries at once, from memory of common advice on lifting. From Scalding on it is carried in less, under a lid: water
// scalds in 5 minutes at 49 °C, in 2 at 52, in 10 s at 57, within 5 s at 60 (scald table, S27).
const (
	CoolCarry = quantity.Volume(8)
	HotCarry  = quantity.Volume(4) // lidded
	Scalding  = quantity.Temperature(50)
)

// Filling is a fill under way: what it is to be, the water at hand, and what is in the vessel already.
type Filling struct {
	Fill           quantity.Volume      // at Aim
	Aim, Cold, Hot quantity.Temperature // Cold and Hot as they are poured
	Have           quantity.Volume      // in the vessel as measured, 0 when it is empty
	HaveAt         quantity.Temperature // its °C
	Pot            quantity.Volume      // what one pot holds as the dyer fills it; 0: hot water comes from the tap
}

// Rest is what is still to pour. Volumes are as poured, each at its own temperature; when the vessel is empty the cold goes
// in first. Less than a millilitre is left out.
type Rest struct {
	Cold, Hot               quantity.Volume
	Pots                    int             // pots of hot water, evenly filled
	PotFill                 quantity.Volume // in each of them
	ColdCarry, HotCarry     quantity.Volume // what is carried at once: CoolCarry at most, from Scalding on HotCarry
	ColdCarries, HotCarries int
	Reaches                 quantity.Temperature // where the fill ends: Aim, unless what is there is too warm, too cold or too much
	Short                   string               // one sentence in metric when Reaches is more than 0.5 K off, or the vessel holds too much; else ""

	why error
}

// ShortIn is Short in a system of units.
func (r Rest) ShortIn(sys quantity.System) string {
	if e, ok := r.why.(*LimitError); ok {
		return e.In(sys)
	}
	return r.Short
}

// missed is how far from its aim a fill may end without a word.
const missed = 0.5

// least is what is worth pouring.
const least = quantity.Volume(0.001)

// Rest is what is still to pour, by the balance of mass and heat of what is there and what comes; the vessel's own heat is
// left out, which the next reading tells. With an empty vessel it is Mix, and has its errors: an aim that cold and hot
// cannot make. With something in it the aim may be out of reach: then only cold, or only hot, is poured up to the fill,
// never more, and Reaches and Short say what comes of it. Impossible temperatures or volumes give a *LimitError.
func (f Filling) Rest() (Rest, error) {
	if err := cmp.Or(within(f.Cold, f.Hot, f.Aim), pourable(f.Fill), pourable(f.Have), pourable(f.Pot)); err != nil {
		return Rest{}, err
	}
	r := Rest{Reaches: f.Aim}
	if f.Have == 0 {
		hot, cold, err := Mix(f.Fill, f.Cold, f.Hot, f.Aim)
		if err != nil {
			return Rest{}, err
		}
		return r.carried(f, cold, hot), nil
	}
	if err := within(f.HaveAt); err != nil {
		return Rest{}, err
	}
	if f.Hot < f.Cold {
		return Rest{}, limit("the hot water, %, is colder than the cold, %", f.Hot, f.Cold)
	}
	if f.Have >= f.Fill {
		return f.full(), nil
	}
	there, heat := MassOf(f.Have, f.HaveAt).Kilograms(), Enthalpy(f.HaveAt)
	comes := MassOf(f.Fill, f.Aim).Kilograms() - there
	cold, hot := Enthalpy(f.Cold), Enthalpy(f.Hot)
	wanted := wording.Either(comes > 0, ((there+comes)*Enthalpy(f.Aim)-there*heat)/comes, 0) // what comes must hold as much, kJ/kg
	switch {
	case !(comes > 0):
		return f.full(), nil
	case wanted < cold:
		kilos, at := f.topUp(there, heat, cold)
		r = r.ends(f, at, "what is there is too warm: with all the rest cold the fill ends at %, not at %; let it cool, or take some out")
		return r.carried(f, VolumeOf(quantity.Kilograms(kilos), f.Cold), 0), nil
	case wanted > hot:
		kilos, at := f.topUp(there, heat, hot)
		r = r.ends(f, at, "what is there is too cold: with all the rest hot the fill ends at %, not at %; heat the rest more, or take some out")
		return r.carried(f, 0, VolumeOf(quantity.Kilograms(kilos), f.Hot)), nil
	}
	part := 0.0
	switch {
	case f.Hot-f.Cold > 1e-3:
		part = (wanted - cold) / (hot - cold)
	case f.Hot > f.Cold: // too near for a difference of enthalpies
		part = 0.5
	}
	return r.carried(f, VolumeOf(quantity.Kilograms(comes*(1-part)), f.Cold), VolumeOf(quantity.Kilograms(comes*part), f.Hot)), nil
}

// full is the rest when nothing more goes in.
func (f Filling) full() Rest {
	r := Rest{Reaches: f.HaveAt}
	if f.Have > f.Fill+least {
		return r.because(limit("% is in the vessel already, more than the fill of %; nothing is to be poured", f.Have, f.Fill))
	}
	return r.ends(f, f.HaveAt, "the fill is in, at %, not at %; let it cool, or heat it")
}

// topUp is how many kilograms of one water fill the vessel just to the fill, and the temperature of the whole then.
func (f Filling) topUp(there, heat, water float64) (kilos float64, at quantity.Temperature) {
	at = f.Aim
	for range 30 { // the mass of the fill hangs on its temperature, by 0.04 % a kelvin
		kilos = math.Max(0, MassOf(f.Fill, at).Kilograms()-there)
		at = holding((there*heat + kilos*water) / (there + kilos))
	}
	return kilos, at
}

// holding is the temperature at which water holds so many kJ/kg: the inverse of Enthalpy.
func holding(h float64) quantity.Temperature {
	t := Coldest + quantity.Temperature((h-Enthalpy(Coldest))/4.19)
	for range 8 {
		t = min(max(t-quantity.Temperature((Enthalpy(t)-h)/4.19), Coldest), Hottest)
	}
	return t
}

// ends notes where the fill ends, and says so if that is not where it should.
func (r Rest) ends(f Filling, at quantity.Temperature, text string) Rest {
	r.Reaches = at
	if math.Abs(at.Minus(f.Aim).Kelvins()) > missed {
		return r.because(limit(text, shown(at), f.Aim))
	}
	return r
}

func (r Rest) because(why error) Rest {
	r.why, r.Short = why, why.Error()
	return r
}

// carried is the rest with these volumes, and how they are heated and carried.
func (r Rest) carried(f Filling, cold, hot quantity.Volume) Rest {
	if cold >= least {
		r.Cold = cold
		r.ColdCarries, r.ColdCarry = shares(cold, carry(f.Cold))
	}
	if hot >= least {
		r.Hot = hot
		r.HotCarries, r.HotCarry = shares(hot, carry(f.Hot))
		if f.Pot > 0 {
			r.Pots, r.PotFill = shares(hot, f.Pot)
		}
	}
	return r
}

// carry is what one carries at once of water of a temperature.
func carry(t quantity.Temperature) quantity.Volume {
	if t >= Scalding {
		return HotCarry
	}
	return CoolCarry
}

// shares parts a volume evenly into as few as hold it. A billionth over is not worth another.
func shares(v, most quantity.Volume) (n int, each quantity.Volume) {
	n = max(1, int(math.Ceil(math.Min(float64(v/most)*(1-1e-9), 1e9))))
	return n, v / quantity.Volume(n)
}

// shown is a reckoned temperature, in a sentence rounded to what a thermometer shows.
type shown quantity.Temperature

func (t shown) Format(sys quantity.System) string { return quantity.Temperature(t).Format(sys) }
func (t shown) String() string                    { return quantity.Temperature(t).String() }
