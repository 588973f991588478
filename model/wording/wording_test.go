package wording

import "testing"

func TestWords(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Upper("look at it"), "Look at it"}, {Upper("pH 9.4 is low"), "pH 9.4 is low"}, {Upper(""), ""}, {Upper("écru"), "Écru"}, {Upper("\xff"), "\xff"},
		{Lower("Stir, slowly"), "stir, slowly"}, {Lower(""), ""},
		{Counted(1, "dip"), "1 dip"}, {Counted(0, "dip"), "0 dips"}, {Counted(12, "dip"), "12 dips"},
		{Joined(" · ", "bin", "", " ", "60 L "), "bin · 60 L"}, {Joined(", "), ""},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
