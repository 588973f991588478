package shade

import (
	"math"
	"strings"
	"testing"

	"example.org/vatside/model/quantity"
)

// depths.csv has the ranges of % on fibre, and the names.
func TestDepthsAreThoseOfTheTable(t *testing.T) {
	rows := tableRows(t, "depths.csv")
	for i, d := range Depths() {
		row := rows[i]
		if !strings.HasPrefix(row["name_plain"], d.Name) {
			t.Errorf("row %d is %s, not %s", i, row["name_plain"], d.Name)
		}
		ends := strings.Split(row["range_%owf"], "-")
		for k, s := range []quantity.Share{d.From, d.To} {
			if want, err := quantity.ParseShare(ends[k]+"%", quantity.Metric); err != nil || math.Abs(float64(want-s)) > 1e-12 {
				t.Errorf("%s: %v, the table has %s (%v)", d.Name, s, ends[k], err)
			}
		}
		if want, err := quantity.ParseShare(row["net_indigotin_%owf_default"]+"%", quantity.Metric); err != nil || math.Abs(float64(want-d.OnFibre)) > 1e-12 {
			t.Errorf("%s: %v on fibre", d.Name, d.OnFibre)
		}
	}
}

func TestNamesAndBands(t *testing.T) {
	for _, d := range Depths() {
		b := Band(d)
		if !b.Valid() || Name(b.Likely) != d.Name {
			t.Errorf("the middle of %s goes by %s", d.Name, Name(b.Likely))
		}
	}
	for s, want := range map[KS]string{0: "undyed", 0.05: "undyed", 0.2: "milk", 10: "mid", 1000: "blue-black"} {
		if Name(s) != want {
			t.Errorf("%v goes by %s", s, Name(s))
		}
	}
	// about 8 per 1 %, 80 % between 4 and 16
	if p := perPercentPrior(); p.Low != 4 || p.Likely != 8 || p.High != 16 {
		t.Errorf("1 %% on the fibre: %+v", p)
	}
	last := ""
	seen := map[string]bool{}
	for s := KS(0.01); s < 100; s *= 1.01 {
		if n := Name(s); n != last {
			if seen[n] {
				t.Errorf("%s comes twice", n)
			}
			last, seen[n] = n, true
		}
	}
}

// tableRows reads a table's rows by its head.
func tableRows(t *testing.T, name string) (rows []map[string]string) {
	t.Helper()
	var head []string
	for _, line := range tableLines(t, name) {
		fields := strings.Split(line, ",")
		if head == nil {
			head = fields
			continue
		}
		row := map[string]string{}
		for i, f := range fields[:min(len(fields), len(head))] {
			row[head[i]] = f
		}
		rows = append(rows, row)
	}
	return rows
}
