package shade

// The spectra run from 400 to 700 nm in steps of 10; outside they are held constant.
const (
	firstBand = 400.0
	bandStep  = 10.0
	bands     = 31
	redBand   = 26 // 660 nm, where the dye absorbs most
)

// unit is the K/S of indigo on cotton, 1 at 660 nm: column f_corr of testdata/reference/indigo_unit_ks.csv, made from the
// measured dark indigo cotton of Vrhel, Gershon & Iwan, Color Res. Appl. 19(1):4-9 (1994), less a flat 0.035 of white weft
// and surface, chosen so that one published pale indigo cotton (Munsell 3.1PB 4.1/5.6) has its chroma. Indigo on wool and
// silk is taken to be the same (M; on wool it is somewhat redder).
var unit = [bands]float64{
	0.2370, 0.1675, 0.1220, 0.1220, 0.1298, 0.1403, 0.1540, 0.1665, 0.1802, 0.1923,
	0.2055, 0.2269, 0.2554, 0.2902, 0.3323, 0.3670, 0.3991, 0.4253, 0.4664, 0.5258,
	0.5856, 0.6383, 0.7044, 0.7941, 0.8970, 0.9859, 1.0000, 0.8582, 0.6123, 0.3824,
	0.2101,
}

// whiteCotton is the reflectance of white cotton, column R_undyed of the same table (measured, the same source). It holds
// the surface already.
var whiteCotton = [bands]float64{
	0.3555, 0.5271, 0.7011, 0.7355, 0.7439, 0.7271, 0.7150, 0.7146, 0.7064, 0.7024,
	0.6948, 0.6909, 0.6900, 0.6858, 0.6846, 0.6899, 0.6970, 0.7014, 0.7017, 0.6998,
	0.6987, 0.6990, 0.6969, 0.6998, 0.7040, 0.7099, 0.7175, 0.7245, 0.7342, 0.7474,
	0.7586,
}

// node is a point of an estimated reflectance.
type node struct{ nm, r float64 }

// The other grounds are estimates (M): nobody's measurement, drawn so that unbleached cotton is beige (L* about 83, b*
// about 14), natural wool cream (82, 16) and degummed silk ivory (86, 8). A colour meter on the dyer's own undyed cloth is
// better.
var (
	greigeCotton = []node{{400, 0.30}, {420, 0.40}, {450, 0.50}, {500, 0.58}, {550, 0.65}, {600, 0.70}, {650, 0.73}, {700, 0.76}}
	naturalWool  = []node{{400, 0.20}, {420, 0.30}, {450, 0.42}, {500, 0.54}, {550, 0.62}, {600, 0.67}, {650, 0.70}, {700, 0.72}}
	naturalSilk  = []node{{400, 0.40}, {420, 0.50}, {450, 0.58}, {500, 0.65}, {550, 0.69}, {600, 0.71}, {650, 0.73}, {700, 0.74}}
)

// between is an estimated reflectance at every band, straight between its points.
func between(nodes []node) (r [bands]float64) {
	at := 1
	for i := range r {
		nm := firstBand + bandStep*float64(i)
		for nm > nodes[at].nm {
			at++
		}
		a, b := nodes[at-1], nodes[at]
		r[i] = a.r + (b.r-a.r)*(nm-a.nm)/(b.nm-a.nm)
	}
	return r
}
