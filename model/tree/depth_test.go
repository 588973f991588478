package tree

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/BurntSushi/toml"
)

// deepTexts are texts of about so many bytes that lie deep in one another, each with the line where it shows.
func deepTexts(size int) map[string]string {
	n := size / 2
	return map[string]string{
		"a table's name":    "[" + strings.Repeat("a.", n) + "a]\n",
		"a list's name":     "[[" + strings.Repeat("a.", n) + "a]]\n",
		"a dotted key":      strings.Repeat("a.", n) + "a = 1\n",
		"quoted parts":      strings.Repeat(`"a".`, n/2) + "a = 1\n",
		"a key in a table":  "x = {" + strings.Repeat("a.", n) + "a = 1}\n",
		"lists":             "x = " + strings.Repeat("[", n) + strings.Repeat("]", n) + "\n",
		"lists over lines":  "x = " + strings.Repeat("[\n", n),
		"tables":            "x = " + strings.Repeat("{a=", n/2) + "\n",
		"brackets":          strings.Repeat("[", 2*n),
		"an escaped quote":  `x = "\"" ` + "\n" + strings.Repeat("a.", n) + "a = 1\n",
		"an unclosed quote": "x = 'it is\n" + strings.Repeat("a.", n) + "a = 1\n",
	}
}

func TestTooDeep(t *testing.T) {
	for name, text := range deepTexts(100_000) {
		if TooDeep([]byte(text)) == 0 {
			t.Errorf("%s: nothing is found", name)
		}
	}
	if line := TooDeep([]byte("a = 1\n# [[[\nb = '''\n[\n'''\n" + strings.Repeat("a.", depthMost+1) + "a = 1\n")); line != 6 {
		t.Errorf("it stands in line 6, not in %d", line)
	}
	for name, text := range map[string]string{
		"brackets in a text":   "x = \"" + strings.Repeat("[", 5000) + "\"\n",
		"dots in a text":       "x = '" + strings.Repeat(".", 5000) + "'\n",
		"brackets in many":     "x = '''\n" + strings.Repeat("[{.\n", 5000) + "''' \n",
		"a text with quotes":   "x = \"\"\"\n\\\"\"\" " + strings.Repeat("[", 5000) + "\"\"\"\"\"\n",
		"a comment":            "# " + strings.Repeat("[a.", 5000) + "\n",
		"many headers":         strings.Repeat("[[step]]\ndo = \"stir\"\n", 5000),
		"many broken headers":  strings.Repeat("[[step\ndo = \"stir\"\n", 5000),
		"many figures":         "x = [" + strings.Repeat("1.5, ", 5000) + "]\n",
		"many lists":           "x = [" + strings.Repeat("[1.5, 2.5],\n", 5000) + "]\n",
		"many tables":          "x = [" + strings.Repeat("{a.b = 1.5, c = 2.5},\n", 5000) + "]\n",
		"times":                strings.Repeat("x = 2026-11-25T09:00:00.123Z\n", 5000),
		"as deep as it may be": "x = " + strings.Repeat("[", depthMost) + strings.Repeat("]", depthMost) + "\n",
		"nothing":              "",
	} {
		if line := TooDeep([]byte(text)); line != 0 {
			t.Errorf("%s: line %d is not too deep", name, line)
		}
	}
}

func BenchmarkTooDeep(b *testing.B) {
	for name, text := range deepTexts(1 << 20) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				TooDeep([]byte(text))
			}
		})
	}
	// What is not too deep, and is hostile all the same.
	in := strings.Repeat("a.", depthMost-2)
	var keys, heads strings.Builder
	for i := 0; keys.Len() < 1<<20; i++ {
		fmt.Fprintf(&keys, "%sk%d = 1\n", in, i)
		fmt.Fprintf(&heads, "[%sk%d]\n", in, i)
	}
	for name, text := range map[string]string{
		"keys": keys.String(), "headers": heads.String(), "lists": strings.Repeat("[["+in+"a]]\n", 1<<14),
		"nested": "x = [" + strings.Repeat(strings.Repeat("[", depthMost-1)+strings.Repeat("]", depthMost-1)+",", 1<<14) + "]\n",
		"steps":  strings.Repeat("[[step]]\ndo = \"stir\"\n", 1<<15), "figures": "x = [" + strings.Repeat("1.5,", 1<<18) + "]\n",
	} {
		b.Run("decoded/"+name, func(b *testing.B) {
			for b.Loop() {
				var all map[string]any
				begun := time.Now()
				_, err := toml.Decode(text, &all)
				b.ReportMetric(float64(time.Since(begun).Milliseconds())/(float64(len(text))/(1<<20)), "ms/MB")
				if err != nil && b.N == 1 {
					b.Log(err)
				}
			}
		})
	}
}

// What package tree reads is never too deep, however long it is: it is not asked there.
func TestWhatIsPlainIsNotTooDeep(t *testing.T) {
	text := "a = [" + strings.Repeat("1.5, ", 10*depthMost) + "1.5]\n"
	for i := range 10 * depthMost {
		text += fmt.Sprintf("[[b.c]]\nd = 0.5\n[e%d.f]\ng = \"[[[[....\" # [[[....\n", i)
	}
	if _, plain := Plain([]byte(text)); !plain || TooDeep([]byte(text)) != 0 {
		t.Errorf("plain %v, too deep in line %d", plain, TooDeep([]byte(text)))
	}
}
