package book

import (
	"os"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/recipe"
	_ "example.org/vatside/testdata/long" // collects garbage less often
)

// The way of a day from its text to what the hands are asked for now, and its pieces: a day of 82 events, of 117, and a
// workshop of 249.
func BenchmarkDay(b *testing.B) {
	for _, n := range []string{"days/soda-bin", "old/kept-05-15", "old/workshop"} {
		data, err := os.ReadFile("../../testdata/" + n + ".toml")
		if err != nil {
			b.Fatal(err)
		}
		whole := Read("", data)
		b.Run(n+"/to its call", func(b *testing.B) {
			for b.Loop() {
				read := Read("", data)
				s, _ := day.Replay(read.Head, read.Events)
				_ = day.NowLine(s, s.At)
			}
		})
		blocks := cut(data)
		b.Run(n+"/head", func(b *testing.B) {
			for b.Loop() {
				if _, _, err := readHead(data[blocks[0].from:blocks[0].to]); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(n+"/recipe", func(b *testing.B) {
			for b.Loop() {
				recipe.Parse("recipe", []byte(whole.Head.Recipe.Text))
			}
		})
		b.Run(n+"/events", func(b *testing.B) {
			for b.Loop() {
				for _, k := range cut(data)[1:] {
					if _, _, err := readEvent(data[k.from:k.to], kinds); err != nil {
						b.Fatal(err)
					}
				}
			}
		})
	}
}
