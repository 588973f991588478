package book

import (
	"strings"
	"testing"
)

// A block or a head that lies deep in itself is one sentence, and costs nothing: it took the decoder 12 s.
func TestADeepBlockIsUnread(t *testing.T) {
	data, ends := sampleFile(t)
	deep := strings.Repeat("a.", 50_000) + "a = 1\n"
	spoilt := string(data[:ends[0]]) + "\n[[event]]\nseq = 1\n" + deep + "# end 1 00000000\n" + string(data[ends[1]:])
	b := Read("day.toml", []byte(spoilt))
	if len(b.Unread) != 1 || b.Unread[0].Seq != 1 || !strings.Contains(b.Unread[0].What, "in its line 3 its tables or lists lie too deep in one another") ||
		len(b.Events) != len(sampleEvents())-1 {
		t.Errorf("%d events, unread %.200v", len(b.Events), b.Unread)
	}
	for name, head := range map[string]string{
		"its own":      strings.Replace(string(data), "\n[setup]", "\n["+strings.Repeat("a.", 50_000)+"a]\n[setup]", 1),
		"its recipe's": strings.Replace(string(data), "\n[recipe]\n", "\n[recipe]\n"+deep, 1),
	} {
		b := Read("day.toml", []byte(head))
		if b.HeadErr == nil || !strings.Contains(b.HeadErr.Error(), "lie too deep in one another") {
			t.Errorf("%s: %.200v", name, b.HeadErr)
		}
	}
}
