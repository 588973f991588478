package book

import (
	"crypto/sha256"
	"encoding/hex"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
)

// Old books are read for ever: day.Apply takes whatever was ever written, only day.Decide gets stricter. testdata/old holds
// days as versions of the past wrote them; they are never written anew. Beside each stands the state that it replays to, as
// a person can read it: all that is not zero of the exported fields, without the log and without the words of the plan.
//
// A difference here is a dyer's book that tells another story than it did. Nearly always the change of the program is wrong,
// or belongs into Decide. A new field of the state is no difference as long as an old book leaves it at zero. Where a state
// must change all the same, because the old one was plainly false:
//
//	go test ./model/book -run OldBooks -update
//
// and read each line of the difference; then put the new sums, which the test prints, into oldStates, and say in the commit
// why the old state was false. -update alone leaves the test failing. A day of a new version is added with its sum.
var update = flag.Bool("update", false, "write the states beside testdata/old anew")

// oldStates are the days of testdata/old, and the sum of the state that each replays to.
var oldStates = map[string]string{
	"format-1-crlf":                   "88cf52a95868a7a7",
	"format-1":                        "88cf52a95868a7a7",
	"kept-03-02":                      "9d29d5e45ecc51ec",
	"kept-03-24":                      "0547d873a7dd2e4d",
	"kept-05-12":                      "47a3cc2ac0855a3d",
	"kept-05-15":                      "bf6550cf6c94f40d",
	"kept-05-30":                      "21181e9f8057ceba",
	"played-soda-bin-gone":            "27d76da468014768",
	"played-soda-bin-last-day":        "52aad37b78f694dc",
	"played-soda-bin-second-day":      "eea422bfde705f09",
	"played-soda-bin":                 "e9113168fccd1eff",
	"played-sugar-lime-pail-next-day": "fa491208404dedb1",
	"played-sugar-lime-pail":          "2816cf52023b9645",
	"rehearsed-iron-lime":             "de8233d1b8e7d7a2",
	"rehearsed-lye":                   "8834ccd87ee27385",
	"rehearsed-madder-bran":           "dcbbf1b32260effe",
	"rehearsed-soda":                  "fdc6caea0825e554",
	"rehearsed-thiourea":              "eaeace1564319105",
	"workshop":                        "b1ee40b5def0842f",
}

func TestOldBooksReplayToTheSameStates(t *testing.T) {
	const dir = "../../testdata/old"
	files, err := filepath.Glob(filepath.Join(dir, "*.toml"))
	if err != nil || len(files) < len(oldStates) {
		t.Fatalf("%d days of %d: %v", len(files), len(oldStates), err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".toml")
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			b := Read(file, data)
			if b.HeadErr != nil || len(b.Events) == 0 {
				t.Fatalf("it cannot be read: %v, %d events", b.HeadErr, len(b.Events))
			}
			s, errs := day.Replay(b.Head, b.Events)
			got := stateText(b, s, errs)
			golden := filepath.Join(dir, name+".txt")
			if *update {
				if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if d := firstDifference(got, string(want)); d != "" {
				t.Errorf("it replays to another state than before: %s", d)
			}
			if sum := sumOf(want); sum != oldStates[name] {
				t.Errorf("the state beside it is not the one that was promised: its sum is %q, not %q", sum, oldStates[name])
			}
			live, err := day.Begin(b.Head)
			if err != nil {
				t.Fatal(err)
			}
			for _, e := range b.Events {
				live, _ = day.Apply(live, e)
			}
			if !reflect.DeepEqual(live, s) {
				t.Error("event by event it comes to another state than at once")
			}
		})
	}
}

// sumOf is a sum of a text, the same for either line end.
func sumOf(text []byte) string {
	sum := sha256.Sum256([]byte(strings.ReplaceAll(string(text), "\r\n", "\n")))
	return hex.EncodeToString(sum[:8])
}

func firstDifference(got, want string) string {
	a, b := strings.Split(got, "\n"), strings.Split(strings.ReplaceAll(want, "\r\n", "\n"), "\n")
	for i := range max(len(a), len(b)) {
		x, y := "nothing", "nothing"
		if i < len(a) {
			x = a[i]
		}
		if i < len(b) {
			y = b[i]
		}
		if x != y {
			return fmt.Sprintf("line %d is %q, and was %q", i+1, x, y)
		}
	}
	return ""
}

// stateText is a state as a person can read it, a figure a line.
func stateText(b Book, s day.State, errs []error) string {
	var out strings.Builder
	fmt.Fprintf(&out, "events = %d\nmisfits = %d\nmarks = %d\nfaults = %d\n", len(s.Log), len(errs), len(b.Marks), len(b.Faults))
	s.Log = nil
	s.Head.Recipe.Text = ""
	s.Head.Recipe.Steps = slices.Clone(s.Head.Recipe.Steps)
	for i := range s.Head.Recipe.Steps { // words that only the hands read
		p := &s.Head.Recipe.Steps[i]
		p.How, p.Why, p.Look, p.Caution, p.Meanwhile, p.Evidence = "", "", "", "", "", ""
	}
	s.Plan = slices.Clone(s.Plan)
	for i := range s.Plan { // words of the program, which may get better
		p := &s.Plan[i]
		p.Title, p.How, p.Why, p.Look, p.Caution, p.Meanwhile = "", "", "", "", "", ""
	}
	writeValue(&out, "", reflect.ValueOf(s))
	return out.String()
}

var timeType = reflect.TypeFor[time.Time]()

// writeValue writes what is not zero of a value.
func writeValue(out *strings.Builder, path string, v reflect.Value) {
	if v.IsZero() {
		return
	}
	switch {
	case v.Type() == timeType:
		fmt.Fprintf(out, "%s = %s\n", path, v.Interface().(time.Time).Format(time.RFC3339Nano))
		return
	case v.Kind() == reflect.Pointer:
		if v.Elem().IsZero() {
			fmt.Fprintf(out, "%s = zero, and known\n", path)
			return
		}
		writeValue(out, path, v.Elem())
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if !f.IsExported() {
				continue
			}
			at := path
			if !f.Anonymous {
				at = strings.TrimPrefix(path+"."+f.Name, ".")
			}
			writeValue(out, at, v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		fmt.Fprintf(out, "%s = %d\n", path, v.Len())
		for i := range v.Len() {
			writeValue(out, fmt.Sprintf("%s[%d]", path, i), v.Index(i))
		}
	case reflect.Map:
		keys := v.MapKeys()
		slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(fmt.Sprint(a), fmt.Sprint(b)) })
		for _, k := range keys {
			writeValue(out, fmt.Sprintf("%s[%v]", path, k), v.MapIndex(k))
		}
	case reflect.String:
		fmt.Fprintf(out, "%s = %q\n", path, v.String())
	case reflect.Bool:
		fmt.Fprintf(out, "%s = %v\n", path, v.Bool())
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		fmt.Fprintf(out, "%s = %d\n", path, v.Int())
	case reflect.Float32, reflect.Float64:
		fmt.Fprintf(out, "%s = %.6g\n", path, v.Float())
	default:
		panic("a state holds a " + v.Kind().String() + " at " + path)
	}
}
