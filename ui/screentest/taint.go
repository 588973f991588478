package screentest

import (
	"bytes"
	"errors"
	"fmt"
	"hash/crc32"
	"reflect"
	"regexp"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/stock"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/shelf"
)

// Taint is what a stranger's file may hold in any of its words: sequences that set the clipboard, colour what follows and clear
// the screen, C1's form of them, a bell, a CR, and what turns the direction of writing round. It begins with TaintMark, by
// which a test sees that the word really came that far.
const Taint = TaintMark + "\x1b]52;c;aGFja2Vk\a\x1b[31m\x1b[2J\u009b31m\u202e\u2066\u2028\x7f\a\r"

// TaintMark begins the Taint.
const TaintMark = "TAINT"

// taintTOML is the Taint as it stands in a TOML string: C1 and the overrides as they are, for TOML allows them.
const taintTOML = TaintMark + `\u001b]52;c;aGFja2Vk\u0007\u001b[31m\u001b[2J` + "\u009b31m\u202e\u2066\u2028" + `\u007f\u0007\r`

// Words that a dyer writes freely. In the others a word of the trade is looked for, and the day would be another one.
var (
	freeInEvents = regexp.MustCompile(`(?m)^((?:tag|what|who|why|reason|text|seen|colour|with|route|swatch|timer|caution|name|like|material|tin) = "[^"\n]*)"$`)
	freeInRecipe = regexp.MustCompile(`(?m)^((?:name|source|how|why|look|caution|meanwhile|evidence) = "[^"\n]*)"`)
	ends         = regexp.MustCompile(`(?m)^# end (\d+) [0-9a-f]{8}\n`)
)

// taintedFile is a whole file of the book with the Taint behind each free word in it, and its checksums anew.
func taintedFile(file []byte) []byte {
	var out bytes.Buffer
	from := 0
	for _, at := range ends.FindAllSubmatchIndex(file, -1) {
		block := file[from:at[0]]
		own, recipe, _ := bytes.Cut(block, []byte("[recipe]\n"))
		text := freeInEvents.ReplaceAll(own, []byte(`${1}`+strings.ReplaceAll(taintTOML, "$", "$$")+`"`))
		if len(recipe) > 0 {
			text = append(append(text, "[recipe]\n"...), freeInRecipe.ReplaceAll(recipe, []byte(`${1}`+taintTOML+`"`))...)
		}
		lead := len(text) - len(bytes.TrimLeft(text, "\n")) // the blank lines before a block are not its own
		out.Write(text)
		fmt.Fprintf(&out, "# end %s %08x\n", file[at[2]:at[3]], crc32.ChecksumIEEE(text[lead:]))
		from = at[1]
	}
	out.Write(file[from:])
	return out.Bytes()
}

// taintedKinds are blocks of an event of each kind, from the number seq on, with the Taint as every string of it, and one of a
// kind of a later version; all at one instant.
func taintedKinds(seq int, at time.Time) ([]byte, error) {
	var out bytes.Buffer
	for _, b := range day.Kinds() {
		if k := b.Kind(); k == (day.Closed{}).Kind() || k == (day.VatEnded{}).Kind() {
			continue // after them nothing else counts
		}
		block, err := book.EncodeEvent(day.Event{Seq: seq, At: at, Body: tainted(reflect.ValueOf(b)).Interface().(day.Body)})
		if err != nil {
			return nil, err
		}
		out.WriteByte('\n')
		out.Write(block)
		seq++
	}
	later := fmt.Sprintf("[[event]]\nseq = %d\nat = %s\nkind = \"later %s\"\n\"%s\" = \"%s\"\n", seq, at.Format(time.RFC3339), taintTOML, taintTOML, taintTOML)
	fmt.Fprintf(&out, "\n%s# end %d %08x\n", later, seq, crc32.ChecksumIEEE([]byte(later)))
	return out.Bytes(), nil
}

// TaintedHome are the files of a home whose every word is a stranger's, by their paths in it: the played days at their vats, an
// open day among them ("yard-…"), a day of each kind of event ("every-bin"), a head that cannot be read, a vat whose folder's
// name is not one, own recipes, tins, pieces and settings. played are the played days; soda is the one at whose event 70 the
// open day stands; recipe is a recipe that is good.
func TaintedHome(played [][]byte, soda, recipe []byte) (map[string][]byte, error) {
	out := map[string][]byte{}
	vat := func(text []byte) string { // the folder that the vat's name asks for, so that the name is shown
		return "vats/" + shelf.Slug(book.ReadOn(time.Time{}, "", text).Head.Setup.Name) + "/"
	}
	for _, text := range played {
		file := taintedFile(text)
		out[vat(file)+book.ReadOn(time.Time{}, "", text).Head.Day+".toml"] = file
	}
	half, _, found := strings.Cut(string(soda), "\n[[event]]\nseq = 70\n")
	if !found {
		return nil, errors.New("the played day has no event 70")
	}
	renamed := func(name string) []byte {
		return taintedFile([]byte(strings.ReplaceAll(half, `name = "Garden bin"`, "name = \""+name+"\"")))
	}
	open := renamed("Yard bin")
	out[vat(open)+"2026-05-09.toml"] = open
	events := book.ReadOn(time.Time{}, "", open).Events
	kinds, err := taintedKinds(len(events)+1, events[len(events)-1].At.Add(time.Minute))
	if err != nil {
		return nil, err
	}
	every := append(renamed("Every bin"), kinds...)
	out["vats/every-bin/2026-05-09.toml"] = append(every, "\n[[event]]\nnonsense "+steering+"\n# end 999 00000000\n"...)
	out["vats/every-bin/stray "+steering+".toml"] = nil
	out["vats/hidden"+TaintMark+"\u202e/2026-05-09.toml"] = soda
	out["vats/no-head/2026-05-09.toml"] = []byte("format = 1\n\"" + steering + "\" = \x1b\n# end 0 00000000\n")

	own := func(name string) []byte { return bytes.Replace(recipe, []byte(`"Soda vat"`), []byte(`"`+name+`"`), 1) }
	out["recipes/own"+steering+".toml"] = own("Soda " + steering)
	out["recipes/second.toml"] = own(`Soda \u009b31m` + TaintMark + "\u202e")
	out["settings.toml"] = []byte("units = \"metric" + steering + "\"\n")
	tins := book.EncodeStockHead()
	for i, b := range []stock.Bought{{OfTin: stock.OfTin{Tin: "T1"}, Material: "sodium dithionite", Holds: 500}, {OfTin: stock.OfTin{Tin: "T2"}, Material: "soda ash", Holds: 500}} {
		block, err := book.EncodeStock(stock.Event{Seq: i + 1, At: events[0].At, Body: b})
		if err != nil {
			return nil, err
		}
		tins = append(append(tins, '\n'), block...)
	}
	out["stock.toml"] = taintedFile(tins)
	out["pieces.toml"] = []byte("[[piece]]\ntag = \"A1 " + TaintMark + "\\u001b]52;c;\\u0007\"\nfibre = \"linen\"\ndry = \"1 kg\"\ndips = 2\n")
	out["cut.toml"] = []byte("[[piece]]\ntag = " + steering + "\n")
	return out, nil
}

// steering is what a file system takes for a name.
const steering = "\x1b]2;" + TaintMark + "\a\u202e"

func tainted(v reflect.Value) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	out.Set(v)
	switch v.Kind() {
	case reflect.String:
		out.SetString(Taint)
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				out.Field(i).Set(tainted(v.Field(i)))
			}
		}
	case reflect.Slice:
		out.Set(reflect.Append(out, tainted(reflect.New(v.Type().Elem()).Elem())))
	}
	return out
}

// Unshowable is the first thing in what came out that may not, with what stands around it; empty if there is none. Line feeds,
// CRLF, tabs and form feeds may; with ink SGR sequences may too, but for the one of the Taint.
func Unshowable(out string, ink bool) string {
	if ink {
		if at := strings.Index(out, TaintMark+"\x1b[31m"); at >= 0 {
			return around(out, at)
		}
		out = sgr.ReplaceAllString(out, "")
	}
	for i, r := range out {
		_, n := utf8.DecodeRuneInString(out[i:])
		switch {
		case r == '\n' || r == '\t' || r == '\f' || r == '\r' && strings.HasPrefix(out[i+1:], "\n"):
		case wording.Unfit(r), r == utf8.RuneError && n == 1:
			return around(out, i)
		}
	}
	return ""
}

var sgr = regexp.MustCompile(`\x1b\[[0-9;]*m`)

func around(s string, at int) string { return fmt.Sprintf("%q", s[max(0, at-60):min(len(s), at+60)]) }
