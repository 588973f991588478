package library_test

import (
	"reflect"
	"testing"

	"example.org/vatside/ui/library"
)

// A path comes as terminals paste it: quoted, with escaped blanks, as a file:// address, bare; one or several.
func TestAsksPhoto(t *testing.T) {
	one := func(path string) library.PhotoAsked { return library.PhotoAsked{Paths: []string{path}} }
	for text, want := range map[string]library.PhotoAsked{
		"/home/a/card.jpg":                               one("/home/a/card.jpg"),
		" '/home/a b/card 1.jpg' ":                       one("/home/a b/card 1.jpg"),
		`'/home/it'\''s/card.jpg'`:                       one("/home/it's/card.jpg"),
		`"/home/a b/card \"1\".jpg"`:                     one(`/home/a b/card "1".jpg`),
		`/home/a\ b/card\ \(1\).JPG`:                     one("/home/a b/card (1).JPG"),
		"file:///home/a%20b/card%201.jpg\r\n":            one("/home/a b/card 1.jpg"),
		"file://localhost/home/caf%C3%A9.png":            one("/home/café.png"),
		"file:///home/100%/card.jpg":                     one("/home/100%/card.jpg"),
		"file:///C:/Users/a%20b/card.jpg":                one("C:/Users/a b/card.jpg"),
		`C:\Users\new\card.jpg`:                          one(`C:\Users\new\card.jpg`),
		`"C:\Users\a b\card.jpg"`:                        one(`C:\Users\a b\card.jpg`),
		"/home/a b/card 1.jpg":                           one("/home/a b/card 1.jpg"),
		"card.heic":                                      one("card.heic"),
		"/home/a/notes":                                  one("/home/a/notes"),
		"'/a/1.jpg' '/b c/2.png'":                        {Paths: []string{"/a/1.jpg", "/b c/2.png"}},
		"/a/1.jpg /b/2.png":                              {Paths: []string{"/a/1.jpg", "/b/2.png"}},
		"file:///a/1.jpg\nfile:///b%20c/2.jpg\n":         {Paths: []string{"/a/1.jpg", "/b c/2.jpg"}},
		"wet 1,3,6 '/a b/card.jpg'":                      {Paths: []string{"/a b/card.jpg"}, Rungs: "1,3,6", Wet: true},
		"dry card.jpg 1 3 6":                             {Paths: []string{"card.jpg"}, Rungs: "1,3,6"},
		"wet 1,3,6 /a b/card 2.jpg":                      {Paths: []string{"/a b/card 2.jpg"}, Rungs: "1,3,6", Wet: true},
		"'/a/\x1b]52;c;x\a\u202e.jpg' /b/\u2028\\ c.png": {Paths: []string{"/a/\x1b]52;c;x\a\u202e.jpg", "/b/\u2028 c.png"}},
	} {
		if got, ok := library.AsksPhoto(text); !ok || !reflect.DeepEqual(got, want) {
			t.Errorf("%q is %+v %v", text, got, ok)
		}
	}
	for _, text := range []string{"", " ", "dark", "rung 4", "wet rung 4.3 ±0.6", "lab 31 -3 -20", "#2a3b5c", "1,3,6", "wet", "12 g vec+!q", "it's", `\`, "ks 9", "36 C"} {
		if got, ok := library.AsksPhoto(text); ok {
			t.Errorf("%q is %+v", text, got)
		}
	}
}
