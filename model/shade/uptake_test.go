package shade

import (
	"math"
	"slices"
	"testing"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// The behaviour that is known from published work must come out of the defaults. Sources: the facts in the project's
// reference tables, with the publications named where they are known.

// usual is a vat that nothing exhausts.
var usual = Liquor{Fill: 1e6, Indigo: 1e6, PH: 10.3, Temp: 30}

// shared are the possible vats, made once for the tests.
var shared = Possible("")

// likely is the likely depth after dips, with nothing seen.
func likely(p Piece, v Liquor, minutes float64, dips int) float64 {
	s := shared.Seen(nil).Forecast(p, v, quantity.Minutes(minutes), nil, dips, nil)
	return float64(s[dips-1].KS.Likely)
}

// best is the value from low to high by step at which f is greatest.
func best(low, high, step float64, f func(float64) float64) float64 {
	at, most := low, math.Inf(-1)
	for x := low; x <= high+1e-9; x += step {
		if y := f(x); y > most {
			at, most = x, y
		}
	}
	return at
}

// Deepest cellulose at pH 9.5 to 11, silk at 8 to 9 (Jeong, Lee, Choi & Lee 2000).
func TestDeepestPH(t *testing.T) {
	for f, want := range map[fibre.Fibre][2]float64{
		fibre.Cotton: {9.5, 11}, fibre.Linen: {9.5, 11}, fibre.Silk: {8, 9},
	} {
		at := best(6, 13, 0.25, func(ph float64) float64 {
			v := usual
			v.PH = quantity.PH(ph)
			return likely(Piece{Fibre: f}, v, 5, 1)
		})
		if at < want[0] || at > want[1] {
			t.Errorf("%s is deepest at pH %.2f", f, at)
		}
	}
}

// Above pH 12 the colour yield of cellulose falls with the mono-ionic fraction (Etters & Hou 1991).
func TestYieldFallsAbovePH12(t *testing.T) {
	v, hot := usual, usual
	v.PH, hot.PH = 12, 12.7
	if a, b := likely(Piece{}, v, 5, 1), likely(Piece{}, hot, 5, 1); b > 0.75*a {
		t.Errorf("pH 12.7 still gives %.2f of 12", b/a)
	}
}

// Cellulose is deepest at 20 to 40 °C and paler when hot; silk's affinity falls ×0.6 for each 10 °C (Kongkachuichay 2010). In the
// cold wool takes at most two thirds of what it takes at 45 °C, silk at most half as much again as at 25 (a judgement).
func TestTemperature(t *testing.T) {
	at := func(f fibre.Fibre, c float64) float64 {
		v := usual
		v.Temp = quantity.Celsius(c)
		if f == fibre.Silk {
			v.PH = 8.5
		}
		return likely(Piece{Fibre: f}, v, 5, 1)
	}
	for _, f := range []fibre.Fibre{fibre.Cotton, fibre.Linen, fibre.Viscose} {
		warm := at(f, 30)
		for _, c := range []float64{10, 50, 60, 70} {
			if at(f, c) >= warm {
				t.Errorf("%s at %v °C is not paler than at 30", f, c)
			}
		}
		if at(f, 60) >= at(f, 50) {
			t.Errorf("%s does not go on falling", f)
		}
	}
	for c := 20.0; c <= 40; c += 10 {
		if r := at(fibre.Silk, c+10) / at(fibre.Silk, c); math.Abs(r-0.6) > 0.02 {
			t.Errorf("silk from %v °C: ×%.2f", c, r)
		}
	}
	if r := at(fibre.Wool, 5) / at(fibre.Wool, 45); r > 2.0/3 || r < 0.3 {
		t.Errorf("wool at 5 °C takes %.2f of what it takes at 45", r)
	}
	for c := 2.0; c < 45; c++ {
		if at(fibre.Wool, c) > at(fibre.Wool, c+1)*1.000001 {
			t.Errorf("wool takes more at %v °C than at %v", c, c+1)
		}
		if at(fibre.Silk, c) < at(fibre.Silk, c+1)*0.999999 || at(fibre.Silk, c) > 1.5*at(fibre.Silk, 25) {
			t.Errorf("silk at %v °C takes %.2f of what it takes at 25", c, at(fibre.Silk, c)/at(fibre.Silk, 25))
		}
	}
}

// Six dips of 5 min are darker than one of 30 (linen, ramie, hemp), in every possible vat that is not strong.
func TestManyShortDips(t *testing.T) {
	for _, f := range []fibre.Fibre{fibre.Linen, fibre.Ramie, fibre.Hemp} {
		if six, one := likely(Piece{Fibre: f}, usual, 5, 6), likely(Piece{Fibre: f}, usual, 30, 1); six < 1.5*one {
			t.Errorf("%s: six of 5 min give %.1f, one of 30 %.1f", f, six, one)
		}
	}
	paler := 0
	for i := range shared.plain {
		v := &shared.plain[i]
		if dot(v.gains.first[1:7], []float64{1, 1, 1, 1, 1, 1}) <= v.taken(30, 1) {
			paler++
		}
	}
	if paler > len(shared.plain)/100 {
		t.Errorf("in %d of %d possible vats one long dip is as dark", paler, len(shared.plain))
	}
}

// Depth stops rising after about 30 min in one dip: twice as long adds less than 5 %, in nine vats of ten less than 15 %.
func TestLittleGainAfterHalfAnHour(t *testing.T) {
	if a, b := likely(Piece{}, usual, 30, 1), likely(Piece{}, usual, 60, 1); b > 1.05*a {
		t.Errorf("60 min give %.2f of 30", b/a)
	}
	var more []float64
	for i := range shared.plain {
		v := &shared.plain[i]
		more = append(more, v.taken(60, 1)/v.taken(30, 1))
	}
	slices.Sort(more)
	if m := more[len(more)*9/10]; m > 1.15 {
		t.Errorf("in a tenth of the vats the second half hour adds %.2f", m)
	}
}

// Mercerised cotton takes up twice as much as untreated.
func TestMercerised(t *testing.T) {
	r := likely(Piece{Fibre: fibre.Cotton, Mercerised: true}, usual, 5, 3) / likely(Piece{Fibre: fibre.Cotton}, usual, 5, 3)
	if math.Abs(r-2) > 0.15 {
		t.Errorf("mercerised takes %.2f times", r)
	}
	if a, b := likely(Piece{Fibre: fibre.Linen, Mercerised: true}, usual, 5, 3), likely(Piece{Fibre: fibre.Linen}, usual, 5, 3); a != b {
		t.Error("linen is mercerised")
	}
}

// Before a swatch K/S is likely nearly straight in the number of dips, and less so the more there are, while L* flattens: 1.0 to 1.5, which
// was asked for here, had no measurement behind it and goes against the trade's "returns fall".
func TestBuildUp(t *testing.T) {
	steps := shared.Seen(nil).Forecast(Piece{}, usual, quantity.Minutes(5), nil, 16, nil)
	for i, n := range []int{2, 4, 8, 16} {
		e := math.Log(float64(steps[n-1].KS.Likely/steps[0].KS.Likely)) / math.Log(float64(n))
		if e < 0.85 || e > 1.1 {
			t.Errorf("%d: exponent %.2f to %d dips", i, e, n)
		}
	}
	for n := 2; n < 16; n++ {
		a, b, c := steps[n-2].Lab.L, steps[n-1].Lab.L, steps[n].Lab.L
		if !(c < b && b-c < a-b) {
			t.Errorf("dip %d: L* %.1f, %.1f, %.1f does not flatten", n+1, a, b, c)
		}
	}
}

// K/S per dip spans a factor above 20 between vats: 8 vats in 10 span about that.
func TestDipSpansTwentyfold(t *testing.T) {
	var dip []float64
	for i := range shared.plain {
		dip = append(dip, math.Exp(shared.plain[i].level))
	}
	slices.Sort(dip)
	n := len(dip)
	if f := dip[n*9/10] / dip[n/10]; f < 20 || f > 23 {
		t.Errorf("80 %% of vats span %.1f", f)
	}
	if f := dip[n*99/100] / dip[n/100]; f < 20 {
		t.Errorf("98 %% span %.1f", f)
	}
}

// The tenth piece in a tired vat comes out paler, and a balance of the indigo holds.
func TestTenthPieceIsPaler(t *testing.T) {
	w := shared.Seen(ladder(1, 2, 4))
	p := Piece{Fibre: fibre.Cotton, Dry: 400}
	v := Liquor{Fill: 40, Indigo: 40, PH: 10.3, Temp: 35}
	five := quantity.Minutes(5)
	var first, last float64
	for i := range 10 {
		d := float64(w.Forecast(p, v, five, nil, 4, nil)[3].KS.Likely)
		if i == 0 {
			first = d
		}
		if i > 0 && d >= last {
			t.Errorf("piece %d is not paler: %.2f after %.2f", i+1, d, last)
		}
		last = d
		left := w.Leaves(p, v, five, 4)
		if !left.Valid() || left.Likely >= v.Indigo || left.Low < 0 {
			t.Fatalf("piece %d leaves %v of %v", i+1, left, v.Indigo)
		}
		v.Indigo = left.Likely
	}
	if last > 0.85*first {
		t.Errorf("the tenth has %.2f, the first %.2f", last, first)
	}
}

// Long dips in a strong reducer strip: what was there gets less.
func TestStrongVatsStrip(t *testing.T) {
	strong := usual
	strong.Strong = true
	if a, b := likely(Piece{}, usual, 20, 6), likely(Piece{}, strong, 20, 6); b > 0.92*a {
		t.Errorf("six dips of 20 min: %.1f, in a strong vat %.1f", a, b)
	}
}

// A course never takes out more indigo than there is, nor makes any.
func TestIndigoIsKept(t *testing.T) {
	for i := 0; i < len(shared.plain); i += 37 {
		v := &shared.plain[i]
		const load, held = 50.0, 1.5
		c := course{held: held, power: math.Pow(held, v.exhaustion)}
		for range 20 {
			c.dip(v, math.Exp(v.level), 0.02, load)
			taken := c.ks / v.perPercent / 100 * load
			if c.held < 0 || math.Abs(taken+c.held-held) > 1e-3*held {
				t.Fatalf("vat %d: %.4f taken, %.4f left of %.1f", i, taken, c.held, held)
			}
			if want := math.Exp(v.exhaustion * math.Log(c.held)); math.Abs(c.power-want) > 1e-3*want+1e-6 {
				t.Fatalf("vat %d: power %.5f, want %.5f", i, c.power, want)
			}
		}
	}
}

// Sobol's first points in two dimensions are known: 0, 1/2, 3/4, 1/4 and 0, 1/2, 1/4, 3/4; every dimension is even in
// every sixteenth.
func TestSobol(t *testing.T) {
	var points [dimensions][1024]float64
	s := newSobol()
	for i := range 1024 {
		for d := range points {
			points[d][i] = (float64(s.place(d)) + 0.5) / howMany
		}
		s.next()
	}
	a, b := points[0], points[1]
	for i, want := range [][2]float64{{0, 0}, {0.5, 0.5}, {0.75, 0.25}, {0.25, 0.75}} {
		if math.Abs(a[i]-want[0]) > 1e-3 || math.Abs(b[i]-want[1]) > 1e-3 {
			t.Errorf("point %d is %.3f, %.3f", i, a[i], b[i])
		}
	}
	for d := range dimensions {
		var held [16]int
		for _, x := range points[d] {
			if x <= 0 || x >= 1 {
				t.Fatalf("dimension %d: %v", d, x)
			}
			held[int(16*x)]++
		}
		for _, n := range held {
			if n != 64 {
				t.Fatalf("dimension %d is uneven: %v", d, held)
			}
		}
	}
	if z := score(0.9); math.Abs(z-tenth) > 1e-9 || math.Abs(math.Erfc(-z/math.Sqrt2)/2-0.9) > 1e-9 {
		t.Errorf("score of 0.9 is %v", z)
	}
}

// Every prior says what it is and where it comes from, and has the 80 % that it states.
func TestPriors(t *testing.T) {
	all := Priors()
	if len(all) != ofPiece {
		t.Fatalf("%d priors for %d dimensions", len(all), ofPiece)
	}
	shares := 0.0
	for _, f := range Forms() {
		shares += f.Share
		all = append(all, f.First)
		if f.Second.Name != "" {
			all = append(all, f.Second)
		}
		if f.Name == "" || f.Curve == "" || f.Evidence == "" {
			t.Errorf("%+v", f)
		}
	}
	if math.Abs(shares-1) > 1e-9 {
		t.Errorf("the forms' shares add up to %v", shares)
	}
	for _, p := range all {
		if p.Name == "" || p.Evidence == "" || !(p.Low < p.Likely && p.Likely < p.High) {
			t.Errorf("%+v", p)
		}
		if low, high := p.at(-tenth), p.at(tenth); math.Abs(math.Log(low/p.Low)) > 0.05 || math.Abs(math.Log(high/p.High)) > 0.05 {
			t.Errorf("%s: 80 %% from %.3g to %.3g, said %.3g to %.3g", p.Name, low, high, p.Low, p.High)
		}
	}
}

// An iron vat comes out at S12's 114 % of a soda vat, each at its own pH, and one of thiourea dioxide at 97 %: the pH counts once.
func TestFamiliesYieldAtTheirOwnPH(t *testing.T) {
	first := func(f recipe.Family, ph quantity.PH) float64 {
		v := Liquor{Fill: 60, Indigo: 60, PH: ph, Temp: 30}
		steps := Possible(f).Seen(nil).Forecast(Piece{Fibre: fibre.Cotton, Ground: GroundOf(fibre.Cotton)}, v, quantity.Minutes(5), nil, 1, nil)
		return float64(steps[0].KS.Likely)
	}
	soda := first(recipe.DithioniteSoda, 11.1)
	for _, c := range []struct {
		f    recipe.Family
		ph   quantity.PH
		want float64
	}{{recipe.IronLime, 12.6, 1.14}, {recipe.ThioureaDioxideSoda, 10.2, 0.97}} {
		if got := first(c.f, c.ph) / soda; math.Abs(got-c.want) > 0.04 {
			t.Errorf("%s at pH %v gives %.2f of a soda vat, not %.2f", c.f, c.ph, got, c.want)
		}
	}
}
