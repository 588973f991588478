package recipe

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"github.com/BurntSushi/toml"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/tree"
	"example.org/vatside/model/wording"
)

// textMost is the longest recipe text that is read, in bytes: a hundred times a long recipe.
const textMost = 1 << 20

// isID tells of an id that is safe as a file name and as an argument: a small letter, then small letters, figures and
// hyphens, at most 40 in all.
func isID(id string) bool {
	for i, c := range []byte(id) {
		if letter := c >= 'a' && c <= 'z'; !letter && (i == 0 || c != '-' && (c < '0' || c > '9')) {
			return false
		}
	}
	return len(id) >= 1 && len(id) <= 40
}

// Parse reads a recipe's TOML strictly and finds every fault, of form and of chemistry, in one run. file is only for
// the faults. With faults the recipe is what could be read and must not be used.
func Parse(file string, text []byte) (Recipe, Faults) {
	r := &reading{file: file}
	keys, faults := Keys(file, text, "a recipe's text", "a recipe is", "each line is a [table], a [[table]]")
	if len(faults) > 0 {
		return Recipe{}, faults
	}
	r.places = sync.OnceValue(func() *tree.Places { return tree.PlacesOf(text) })
	r.unfit(text)

	rec, powders, steps := r.recipe(keys)
	rec.Text = string(text)
	(&chemistry{r, &rec, powders, steps}).check()
	if len(r.faults) == 0 {
		r.tryScale(rec)
	}
	r.faults.sort()
	return rec, r.faults
}

// Keys reads a text of TOML as a tree. A text that is none has one fault: this is not what, it is as right says, each line
// is what lines says or key = "value".
func Keys(file string, text []byte, what, right, lines string) (map[string]any, Faults) {
	r := &reading{file: file}
	if len(text) > textMost || !utf8.Valid(text) {
		r.fault(tree.Spot{Line: 1, Col: 1, Width: 1}, "this is not "+what, right+" UTF-8 text of at most 1 MB")
		return nil, r.faults
	}
	keys, plain := tree.Plain(text)
	if plain {
		return keys, nil
	}
	if line := tree.TooDeep(text); line > 0 {
		r.fault(tree.Spot{Line: line, Col: 1, Width: 1}, tree.DeepWords, tree.DeepRight)
		return nil, r.faults
	}
	keys = nil
	if _, err := toml.Decode(string(text), &keys); err != nil {
		r.syntax(text, err, lines)
	}
	return keys, r.faults
}

// unfit notes the first character that cannot be shown, wherever it stands: the book copies the text whole. One that is
// written as an escape is found with its key.
func (r *reading) unfit(text []byte) {
	what, at := wording.Unfitness(string(text))
	if what == "" {
		return
	}
	before := text[:at]
	line := bytes.LastIndexByte(before, '\n') + 1
	r.fault(tree.Spot{Line: bytes.Count(before, []byte("\n")) + 1, Col: utf8.RuneCount(before[line:]) + 1, Width: 1}, "here stands "+what, "write it without")
}

// syntax notes the one fault at which the TOML stops being TOML.
func (r *reading) syntax(text []byte, err error, lines string) {
	at, what := tree.Spot{Line: 1, Col: 1, Width: 1}, err.Error()
	var parse toml.ParseError
	if errors.As(err, &parse) {
		what = parse.Message
		at = syntaxSpot(text, parse.Position, strings.HasSuffix(what, `got '\n' instead`))
	}
	what = strings.TrimSuffix(strings.TrimSpace(printable(strings.ReplaceAll(what, "\n", " "))), ".")
	twice := strings.HasSuffix(what, "has already been defined")
	right := wording.Either(twice, "it stands further up: keep one of the two", lines+` or key = "value"`)
	r.fault(at, "this is not TOML: "+what, right)
}

// syntaxSpot turns the decoder's bytes into characters. Its offset can point past the line, and when it met the line's
// end its line is one too far.
func syntaxSpot(text []byte, p toml.Position, lineEnd bool) tree.Spot {
	lines := bytes.Split(text, []byte("\n"))
	n := min(max(p.Line, 1), len(lines))
	if lineEnd && n > 1 && p.Start <= len(bytes.Join(lines[:n-1], []byte("\n"))) {
		n--
	}
	begin := 0
	for _, l := range lines[:n-1] {
		begin += len(l) + 1
	}
	line := bytes.TrimRight(lines[n-1], "\r")
	at := min(max(p.Start-begin, 0), len(line))
	end := min(max(at+p.Len, at), len(line))
	return tree.Spot{Line: n, Col: utf8.RuneCount(line[:at]) + 1, Width: max(1, utf8.RuneCount(line[at:end]))}
}

func (r *reading) recipe(keys map[string]any) (rec Recipe, powders, steps []*table) {
	t := newTable(r, "", "the recipe", keys)
	if v, ok := t.get("format"); !ok {
		t.missing("format", "write format = 1")
	} else if n, _ := v.(int64); n != 1 {
		t.wrong("format", fmt.Sprintf("format is %s, which this program cannot read", shown(v)), "write format = 1")
	}
	rec.ID = t.id("soda")
	rec.Name = t.text("name", true, "Soda vat")
	rec.Family = oneOf(t, "family", true, Families)
	rec.Fibres = t.fibres()
	rec.Source = t.text("source", true, "common practice, no source")

	if sub, ok := t.sub("liquor"); ok {
		rec.Liquor = sub.liquor()
	} else if !t.has("liquor") {
		t.missing("liquor table", "write a [liquor] table with build, low, aim, high, ph, ready, recheck, sediment")
	}
	if sub, ok := t.sub("stock"); ok {
		rec.Stock = sub.stock()
	}
	powders = t.list("powder")
	for i, p := range powders {
		rec.Powders = append(rec.Powders, p.powder(rec.Powders[:i]))
	}
	for i, p := range powders {
		p.reference(&rec.Powders[i], rec.Powders)
	}
	steps = t.list("step")
	for _, s := range steps {
		rec.Steps = append(rec.Steps, s.step(rec.Powders))
	}
	t.close()
	return rec, powders, steps
}

func (t *table) id(such string) string {
	id := t.text("id", true, such)
	if id != "" && !isID(id) {
		t.wrong("id", fmt.Sprintf("id %q is not an id", id), fmt.Sprintf("use small letters, figures and hyphens, at most 40, as id = %q", such))
	}
	return id
}

func (t *table) fibres() []string {
	v, ok := t.get("fibres")
	if !ok {
		t.missing("fibres", `write fibres = ["cotton", "linen"]`)
		return nil
	}
	list, ok := v.([]any)
	if !ok || len(list) == 0 {
		t.wrong("fibres", "fibres is not a list of fibres", `write fibres = ["cotton", "linen"]`)
		return nil
	}
	var out []string
	for _, e := range list {
		name, ok := e.(string)
		if !ok {
			t.wrong("fibres", "fibres holds "+called(e), "write each fibre in quotes")
			continue
		}
		at := func() tree.Spot { return t.r.places().Element(t.full("fibres"), name) }
		f, err := fibre.Parse(name)
		switch {
		case err != nil || f == fibre.Unknown:
			t.r.fault(at(), fmt.Sprintf("fibre %q is unknown", printable(name)), suggestion(name, wording.Each(fibre.All(), fibre.Fibre.String)))
		case slices.Contains(out, f.String()):
			t.r.fault(at(), fmt.Sprintf("fibre %q stands here twice", name), "name it once")
		default:
			out = append(out, f.String())
		}
	}
	return out
}

// sub is a table within the head.
func (t *table) sub(key string) (*table, bool) {
	v, ok := t.get(key)
	if !ok {
		return nil, false
	}
	keys, ok := v.(map[string]any)
	if !ok {
		t.wrong(key, fmt.Sprintf("%s is %s", key, called(v)), fmt.Sprintf("write one [%s] table", key))
		return nil, false
	}
	return newTable(t.r, t.full(key), "["+key+"]", keys), true
}

// list is a list of tables within the head; each is named by its number.
func (t *table) list(key string) []*table {
	v, ok := t.get(key)
	if !ok {
		t.missing(key+"s", fmt.Sprintf("write a [[%s]] table for each", key))
		return nil
	}
	var each []map[string]any
	switch v := v.(type) {
	case []map[string]any:
		each = v
	case []any:
		for _, e := range v {
			keys, ok := e.(map[string]any)
			if !ok {
				t.wrong(key, fmt.Sprintf("%s holds %s", key, called(e)), fmt.Sprintf("write a [[%s]] table for each", key))
				return nil
			}
			each = append(each, keys)
		}
	default:
		t.wrong(key, fmt.Sprintf("%s is %s", key, called(v)), fmt.Sprintf("write [[%s]], with two brackets", key))
		return nil
	}
	if len(each) == 0 {
		t.wrong(key, "there is no "+key, fmt.Sprintf("write a [[%s]] table for each", key))
	}
	out := make([]*table, len(each))
	for i, keys := range each {
		path := fmt.Sprintf("%s.%d", t.full(key), i)
		out[i] = newTable(t.r, path, fmt.Sprintf("%s %d", key, i+1), keys)
	}
	return out
}

func (t *table) liquor() Liquor {
	var l Liquor
	l.Build, _ = measure[quantity.Temperature](t, "build", true, anyHeat)
	low, okLow := measure[quantity.Temperature](t, "low", true, workingHeat)
	aim, okAim := measure[quantity.Temperature](t, "aim", true, workingHeat)
	high, okHigh := measure[quantity.Temperature](t, "high", true, workingHeat)
	if okLow && okAim && low >= aim {
		t.wrong("low", "low is not below aim", "the order is low, aim, high")
	}
	if okAim && okHigh && aim >= high {
		t.wrong("high", "high is not above aim", "the order is low, aim, high")
	}
	l.Low, l.Aim, l.High = low, aim, high
	l.PHLow, l.PHHigh, l.PHFresh, l.PHKept = t.ph()
	l.Ready, _ = measure[quantity.Span](t, "ready", true, longWait)
	l.Recheck, _ = measure[quantity.Span](t, "recheck", true, shortWait)
	l.Sediment, _ = measure[quantity.Length](t, "sediment", true, sludge)
	l.Evidence = t.text("evidence", false, "")
	t.close()
	return l
}

// ph reads the range of pH, and the pH of the fresh liquor and of the one that is kept, which must lie within it and may be
// left out.
func (t *table) ph() (low, high, fresh, kept float64) {
	var okRange bool
	if v, ok := t.get("ph"); !ok {
		t.missing("ph", "write ph = [10.0, 11.5]")
	} else if pair, isList := v.([]any); !isList || len(pair) != 2 {
		t.wrong("ph", "ph is not a range of two numbers", "write ph = [10.0, 11.5]")
	} else {
		var okLow, okHigh bool
		low, okLow = t.acidity("ph", pair[0])
		high, okHigh = t.acidity("ph", pair[1])
		if okRange = okLow && okHigh; okRange && low >= high {
			okRange = false
			t.wrong("ph", "the range of ph does not rise", fmt.Sprintf("write ph = [%s, %s]", decimal(min(low, high)), decimal(max(low, high))))
		}
	}
	within := func(key string) (ph float64) {
		v, ok := t.get(key)
		if !ok {
			return 0
		}
		if ph, ok = t.acidity(key, v); ok && okRange && (ph < low || ph > high) {
			t.wrong(key, fmt.Sprintf("%s %s is outside ph", key, decimal(ph)), fmt.Sprintf("it must be between %s and %s", decimal(low), decimal(high)))
		}
		return ph
	}
	return low, high, within("ph_fresh"), within("ph_kept")
}

// decimal is a pH as it is written in a recipe.
func decimal(f float64) string {
	if f == math.Trunc(f) {
		return fmt.Sprintf("%.1f", f)
	}
	return fmt.Sprint(f)
}

func (t *table) stock() *Stock {
	var s Stock
	s.Volume, _ = measure[quantity.Volume](t, "volume", true, jarful)
	s.PerLitre = t.perLitre()
	s.Build, _ = measure[quantity.Temperature](t, "build", true, stockHeat)
	s.Ready, _ = measure[quantity.Span](t, "ready", true, longWait)
	s.Recheck, _ = measure[quantity.Span](t, "recheck", true, shortWait)
	s.Evidence = t.text("evidence", false, "")
	t.close()
	return &s
}

// perLitre reads the stock for each litre of the vat, as "60 mL/L".
func (t *table) perLitre() quantity.Volume {
	const key = "per_litre"
	s := t.text(key, true, perLitre.such)
	if s == "" {
		return 0
	}
	volume, per, found := strings.Cut(s, "/")
	var v quantity.Volume
	if !found || !strings.EqualFold(strings.TrimSpace(per), "l") || v.UnmarshalText([]byte(strings.TrimSpace(volume))) != nil {
		t.wrong(key, fmt.Sprintf("%s %q is not %s", key, s, perLitre.what), fmt.Sprintf("write it as %q", perLitre.such))
		return 0
	}
	if f := float64(v); !(f >= perLitre.low && f <= perLitre.high) {
		t.wrong(key, fmt.Sprintf("%s %q is out of all bounds", key, s), "it must be "+perLitre.bounds)
		return 0
	}
	return v
}

// tryScale is the last check: a recipe without faults must have amounts.
func (r *reading) tryScale(rec Recipe) {
	if _, err := Scale(rec, tryFill, Options{}); err != nil {
		r.fault(tree.Spot{Line: 1, Col: 1, Width: 1}, strings.TrimSuffix(err.Error(), "."), "")
	}
}

// tryFill is a usual bucketful.
const tryFill = quantity.Volume(20)
