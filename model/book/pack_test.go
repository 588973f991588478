package book

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/pack"
)

// whole are the days at hand of whose files there is nothing to tell, by their paths.
func whole(t testing.TB) map[string]Book {
	t.Helper()
	out := map[string]Book{}
	for _, in := range []string{"../../testdata/days/*.toml", "../../testdata/old/*.toml"} {
		paths, err := filepath.Glob(in)
		if err != nil {
			t.Fatal(err)
		}
		for _, path := range paths {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if b := Read(path, text); b.HeadWhole && len(Verify(b)) == 0 {
				out[path] = b
			}
		}
	}
	if len(out) < 5 {
		t.Fatalf("only %d days are whole", len(out))
	}
	return out
}

// standIn has the machine stand in a time zone for the length of a test.
func standIn(t *testing.T, zone string) {
	t.Helper()
	z, err := time.LoadLocation(zone)
	if err != nil {
		t.Fatal(err)
	}
	was := time.Local
	time.Local = z
	t.Cleanup(func() { time.Local = was })
}

// What is unpacked is what the text says, wherever the machine stands by then.
func TestAPackedDayReadsBackAsItsText(t *testing.T) {
	standIn(t, "Europe/Berlin")
	recipes := RecipesOf(nil)
	packed := map[string][]byte{}
	for path, b := range whole(t) {
		p, err := Pack(b, recipes)
		if err != nil {
			t.Errorf("%s: %v", path, err)
			continue
		}
		for _, e := range b.Events {
			if e.At.Before(p.Earliest) || e.At.After(p.Last) {
				t.Errorf("%s: its times are said to be %v to %v, and one is %v", path, p.Earliest, p.Last, e.At)
			}
		}
		packed[path] = p.Data
	}
	for _, zone := range []string{"Europe/Berlin", "America/Los_Angeles", "UTC"} {
		standIn(t, zone)
		again := RecipesOf(recipes.Packed())
		for path, b := range whole(t) {
			got, err := Unpack(path, packed[path], again)
			if err != nil {
				t.Errorf("%s in %s: %v", path, zone, err)
			} else if !sameBook(got, b) || !reflect.DeepEqual(got.Frame.Verify(), b.Frame.Verify()) || got.NextSeq() != b.NextSeq() {
				t.Errorf("%s in %s reads back as another day", path, zone)
			}
			if n := packedEvents(packed[path], again); n != len(b.Events) {
				t.Errorf("%s has %d events, not %d", path, len(b.Events), n)
			}
		}
	}
}

// Each kind of event has a packed form, with each of its fields.
func TestEachKindIsPacked(t *testing.T) {
	for _, k := range append(day.Kinds(), day.Unknown{}) {
		full := reflect.New(reflect.TypeOf(k)).Elem()
		fill(t, full)
		w := &pack.Packer{}
		if err := packEvent(w, 0, day.Event{Seq: 1, At: time.Unix(1e9, 0).UTC(), Body: full.Interface().(day.Body)}); k.Kind() != "" && err != nil {
			t.Errorf("%T: %v", k, err)
			continue
		}
		var got day.Event
		if u := (&pack.Unpacker{In: w.Out}); k.Kind() != "" {
			if unpackEvent(u, 0, &got, map[string]reflect.Value{}); u.Bad || !reflect.DeepEqual(got.Body, full.Interface()) {
				t.Errorf("%+v reads back as %+v", full.Interface(), got.Body)
			}
		}
	}
}

// fill gives each field of a value something that is not zero.
func fill(t *testing.T, v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[time.Time]() {
			v.Set(reflect.ValueOf(time.Unix(1e9, 5).UTC()))
			return
		}
		for i := range v.NumField() {
			fill(t, v.Field(i))
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(t, v.Elem())
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fill(t, v.Index(0))
	case reflect.Array:
		fill(t, v.Index(1))
	case reflect.String:
		v.SetString("ä " + v.Type().Name())
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int, reflect.Int64:
		v.SetInt(-7)
	case reflect.Float64:
		v.SetFloat(-0.25)
	default:
		t.Fatalf("the test knows no %s", v.Type())
	}
}

// A day of whose file there is something to tell is not packed: it is read anew each time.
func TestWhatIsNotWholeIsNotPacked(t *testing.T) {
	text, err := os.ReadFile("../../testdata/days/soda-bin.toml")
	if err != nil {
		t.Fatal(err)
	}
	for name, spoilt := range map[string][]byte{
		"torn":      text[:len(text)-3],
		"mended":    bytes.Replace(text, []byte(`how = "build"`), []byte(`how = "tend"`), 1),
		"no recipe": text[bytes.Index(text, []byte("[[event]]")):],
		"empty":     nil,
	} {
		if _, err := Pack(Read("x", spoilt), RecipesOf(nil)); err == nil {
			t.Errorf("a day that is %s was packed", name)
		}
	}
	if _, err := Pack(Read("x", text), RecipesOf(nil)); err != nil {
		t.Errorf("the whole day: %v", err)
	}
}

// Bytes that are no packed day are refused, whatever they are.
func TestBentPackedDays(t *testing.T) {
	text, err := os.ReadFile("../../testdata/days/soda-bin.toml")
	if err != nil {
		t.Fatal(err)
	}
	recipes := RecipesOf(nil)
	p, err := Pack(Read("x", text), recipes)
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(p.Data); i += 5 {
		bent := bytes.Clone(p.Data)
		bent[i] ^= byte(i%255 + 1)
		_, _ = Unpack("x", bent, recipes) // it may read as another day, and the index has a checksum for that; it may not panic
		if _, err := Unpack("x", p.Data[:i], recipes); err == nil {
			t.Errorf("cut at %d it is a day", i)
		}
	}
	if _, err := Unpack("x", p.Data, RecipesOf(nil)); err == nil {
		t.Error("without its recipe it is a day")
	}
}

func BenchmarkUnpack(b *testing.B) {
	recipes := RecipesOf(nil)
	book := whole(b)["../../testdata/days/soda-bin.toml"]
	p, err := Pack(book, recipes)
	if err != nil {
		b.Fatal(err)
	}
	b.Logf("%d events, %d bytes of %d", len(book.Events), len(p.Data), book.TornAt)
	for b.Loop() {
		if _, err := Unpack("", p.Data, recipes); err != nil {
			b.Fatal(err)
		}
	}
}

// An index of an earlier version counts while the number of its form is this version's: what this version makes of an old text
// goes with that number.
func TestWhatIsReadGoesWithTheNumberOfPackedDays(t *testing.T) {
	const number, want = 1, "5d059638"
	var said bytes.Buffer
	for _, name := range []string{"format-1", "workshop", "rehearsed-soda", "rehearsed-iron-lime", "rehearsed-madder-bran"} {
		text, err := os.ReadFile("../../testdata/old/" + name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		b := Read(name, text)
		head, err := EncodeHead(b.Head)
		fmt.Fprintf(&said, "%s %v %v\n%s", name, err, Verify(b), head)
		for _, e := range b.Events {
			block, err := EncodeEvent(e)
			fmt.Fprintf(&said, "%v %s", err, block)
		}
	}
	if got := fmt.Sprintf("%08x", crc32.ChecksumIEEE(said.Bytes())); packing != number || got != want {
		t.Errorf("packing is %d and the sum of what is read %s, not %d and %s: where a text reads otherwise than it did, raise packing, and put both here",
			packing, got, number, want)
	}
}

// packedEvents is how many events a packed day has; -1 where it is none.
func packedEvents(data []byte, r *Recipes) int {
	b, u := headOf("", data, r)
	if n := int(u.Uint()); !u.Bad && b.HeadWhole {
		return n
	}
	return -1
}
