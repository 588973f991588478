package command

import (
	"fmt"
	"testing"
)

// What more of one thing must do to another, whatever the figures are. Each list goes on from less to more.

// along is a figure along a list of words put into a line.
func along(t *testing.T, line, key string, values ...string) []float64 {
	t.Helper()
	var out []float64
	for _, v := range values {
		out = append(out, of(t, answer(t, fmt.Sprintf(line, v)), key))
	}
	return out
}

func rises(t *testing.T, what string, strictly bool, got []float64) {
	t.Helper()
	for i := 1; i < len(got); i++ {
		if got[i] < got[i-1] || strictly && got[i] == got[i-1] {
			t.Errorf("%s: %v", what, got)
			return
		}
	}
}

func falls(t *testing.T, what string, strictly bool, got []float64) {
	t.Helper()
	for i := range got {
		got[i] = -got[i]
	}
	rises(t, what, strictly, got)
}

func TestCoolingGoesOneWay(t *testing.T) {
	for _, v := range []string{"pail", "bin", "box+60cm+40cm+50cm", "cylinder+40cm+60cm", "jug"} {
		cool := "reckon cooling --vessel " + v + " --fill 15L --from 50C --air 20C --humidity 50%%"
		falls(t, v+": longer is never warmer", true, along(t, cool+" --hours %s", "temp_c", "0", "0.25", "1", "4", "12", "48"))
		rises(t, v+": a wrap never cools", true, along(t, cool+" --hours 4 --wrap %s", "temp_c", "0mm", "5mm", "25mm", "100mm"))
		rises(t, v+": nor with a lid", true, along(t, cool+" --hours 4 --lid --wrap %s", "temp_c", "0mm", "5mm", "25mm", "100mm"))
		rises(t, v+": a lid never cools", true, along(t, cool+" --hours 4%s", "temp_c", "", " --lid", " --lid --wrap 25mm"))
		rises(t, v+": more liquor never cools sooner", true, along(t, "reckon cooling --vessel "+v+" --from 50C --air 20C --humidity 50%% --hours 4 --fill %s", "temp_c", "5L", "10L", "15L", "20L"))
		rises(t, v+": warmer air never cools more", true, along(t, "reckon cooling --vessel "+v+" --fill 15L --from 50C --humidity 50%% --hours 4 --air %s", "temp_c", "-10C", "5C", "20C", "35C"))
		rises(t, v+": damper air never cools more", true, along(t, "reckon cooling --vessel "+v+" --fill 15L --from 50C --air 20C --hours 4 --humidity %s", "temp_c", "0%", "50%", "100%"))
	}
	// The series: each full hour and the end, the last of it the answer; in the end the air's own temperature, under a lid.
	m := answer(t, stand+" --hours 2.5 --lid")
	s := m["series"].([]any)
	if len(s) != 4 || of(t, s[0].(map[string]any), "temp_c") != 50 || of(t, s[3].(map[string]any), "hour") != 2.5 || of(t, s[3].(map[string]any), "temp_c") != of(t, m, "temp_c") {
		t.Errorf("%v", m)
	}
	if end := of(t, answer(t, stand+" --hours 240 --lid"), "temp_c"); end < 19.9 || end > 20.5 {
		t.Errorf("after ten days: %v", end)
	}
	if a, b := answer(t, stand+" --hours 1.5"), answer(t, stand+" --hours 90+min"); of(t, a, "temp_c") != of(t, b, "temp_c") {
		t.Errorf("1.5 is not 90 min: %v %v", a, b)
	}
}

func TestAlkaliGoesOneWay(t *testing.T) {
	for _, key := range []string{"ph", "ph_low", "ph_high"} {
		rises(t, "more soda is never lower", false, along(t, "reckon ph --temp 35C --soda %sg/L", key, "0", "0.5", "1", "3", "6", "10", "20", "30"))
		rises(t, "more lye is never lower", false, along(t, "reckon ph --temp 35C --soda 6g/L --lye %sg/L", key, "0", "0.5", "1", "3"))
	}
	rises(t, "more potash is never lower", true, along(t, "reckon ph --temp 35C --potash %sg/L", "ph", "0", "0.5", "1", "3", "6", "10"))
	falls(t, "more spent reducer is never higher", true, along(t, "reckon ph --temp 35C --soda 6g/L --spent %smmol/L", "ph", "0", "2", "5", "10", "20"))
	falls(t, "more bisulfite is never higher", true, along(t, "reckon ph --temp 35C --soda 6g/L --bisulfite %smmol/L", "ph", "0", "2", "5", "10", "20"))
	falls(t, "baking soda in soda is never higher", true, along(t, "reckon ph --temp 35C --soda 6g/L --bicarbonate %sg/L", "ph", "0", "1", "3", "6"))
	falls(t, "a warmer soda liquor is never higher", true, along(t, "reckon ph --soda 6g/L --temp %s", "ph", "0C", "20C", "40C", "60C", "100C"))
	for _, soda := range []string{"0", "1", "6", "30"} {
		m := answer(t, "reckon ph --temp 25C --soda "+soda+"g/L")
		if l, p, h := of(t, m, "ph_low"), of(t, m, "ph"), of(t, m, "ph_high"); l >= p || p >= h {
			t.Errorf("%v", m)
		}
	}
}

func TestTheRestGoesOneWay(t *testing.T) {
	falls(t, "warmer water holds less oxygen", true, along(t, "reckon oxygen --temp %s", "mg_per_l", "0C", "20C", "40C", "60C", "80C", "100C"))
	rises(t, "thicker air gives more", true, along(t, "reckon oxygen --temp 20C --pressure %s", "mg_per_l", "500hPa", "800hPa", "1013.25hPa", "1100hPa"))
	rises(t, "a deeper liquor is more", true, along(t, "reckon fill --vessel pail --depth %s", "litres", "0cm", "1cm", "20cm", "36.8cm"))
	rises(t, "more liquor is deeper", true, along(t, "reckon fill --vessel jug --litres %s", "depth_cm", "0L", "1L", "5L", "7L", "10L", "20L"))
	rises(t, "goods lift it", true, along(t, "reckon fill --vessel pail --litres 15L%s", "depth_cm", "", " --goods 100+g+cotton", " --goods 600+g+cotton", " --goods 2+kg+cotton"))
	rises(t, "more heat takes longer", true, along(t, "reckon heat --from 15C --to 40C --power 1000W --fill %s", "minutes", "0L", "1L", "15L", "60L"))
	falls(t, "more power takes less", true, along(t, "reckon heat --from 15C --to 40C --fill 15L --power %s", "minutes", "300W", "1kW", "3kW"))
	rises(t, "more hot for a warmer fill", true, along(t, mixing+" --aim %s", "hot_l", "12C", "20C", "40C", "60C"))
	for _, id := range []string{"soda", "lye", "thiourea", "iron-lime"} {
		line := "reckon reducer --recipe " + id + " --fill 20L --temp 30C --vessel "
		open, lid := answer(t, line+"bin"), answer(t, line+"bin --lid")
		for _, end := range []string{"low", "likely", "high"} {
			if of(t, lid, "reserve_rest_h", end) < of(t, open, "reserve_rest_h", end) || of(t, lid, "per_hour_g", end) >= of(t, open, "per_hour_g", end) {
				t.Errorf("%s: a lid never shortens: %v %v", id, open, lid)
			}
			if of(t, lid, "reserve_work_h", end) > of(t, lid, "reserve_rest_h", end) {
				t.Errorf("%s: work lasts longer than rest: %v", id, lid)
			}
		}
		for _, when := range []string{"rest", "work"} {
			sum := 0.0
			for _, p := range lid["parts"].([]any) {
				if m := p.(map[string]any); m["when"] == when {
					sum += m["part"].(float64)
				}
			}
			if sum < 0.999 || sum > 1.001 {
				t.Errorf("%s, at %s: the parts are %v of the whole", id, when, sum)
			}
		}
	}
	// trade.md §1, 15: 9.1 mg/L of oxygen at 20 °C; README of the reference tables: one filling eats 50–99 mg/L of dithionite.
	if g := of(t, answer(t, "reckon reducer --recipe soda --fill 60L --temp 36C --vessel bin"), "fill_water_g") / 60; g < 0.03 || g > 0.099 {
		t.Errorf("the fill water eats %v g/L", g)
	}
	// 0.664 g of dithionite a gram of pure indigo (molar masses); the grains are pre-reduced, so that it is at most that.
	if g := of(t, answer(t, "reckon reducer --recipe lye --fill 20L --temp 36C --vessel bin"), "indigo_g"); g < 28.5*0.664*0.98 || g > 28.5*0.664*1.02 {
		t.Errorf("28.5 g of indigo take %v g", g)
	}
}
