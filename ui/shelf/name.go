package shelf

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"example.org/vatside/model/wording"
)

// slugMost is the longest folder name that Slug makes, in characters.
const slugMost = 40

// deviceNames cannot be folders on Windows, and a home may travel.
var deviceNames = strings.Fields("con prn aux nul com1 com2 com3 com4 com5 com6 com7 com8 com9 lpt1 lpt2 lpt3 lpt4 lpt5 lpt6 lpt7 lpt8 lpt9")

// Slug is a vat's name as a folder name: small letters and figures of any script, hyphens for all else. "Garden bin!"
// is "garden-bin". A name of which nothing is left is "vat".
func Slug(name string) string {
	var b strings.Builder
	n := 0
	for _, r := range strings.ToLower(strings.ToValidUTF8(name, "-")) {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) && n > 0 {
			b.WriteRune(r)
		} else if s := b.String(); s != "" && !strings.HasSuffix(s, "-") {
			b.WriteByte('-')
		} else {
			continue
		}
		if n++; n == slugMost {
			break
		}
	}
	s := strings.Trim(b.String(), "-")
	switch {
	case s == "":
		return "vat"
	case slices.Contains(deviceNames, s):
		return "vat-" + s
	}
	return s
}

// FreeVat is the folder name for a new vat of that name: its slug, or with -2, -3 … if that is taken.
func (h Home) FreeVat(name string) (string, error) {
	slug := Slug(name)
	for n := 1; ; n++ {
		folder := numbered(slug, n)
		_, err := os.Lstat(h.VatDir(folder))
		if errors.Is(err, fs.ErrNotExist) {
			return folder, nil
		}
		if err != nil {
			return "", fmt.Errorf("the vat's folder cannot be looked up: %w", err)
		}
	}
}

// numbered is the name of the n-th of its kind: the first has no number.
func numbered(name string, n int) string {
	return wording.Either(n == 1, name, name+"-"+strconv.Itoa(n))
}

// CheckVat says what is wrong with the name of a vat's folder, or nil: it may not lead out of the home, nor hide in it.
func CheckVat(vat string) error {
	bad := func(r rune) bool { return strings.ContainsRune(`/\:*?"<>|`, r) || wording.Unfit(r) }
	if vat == "" || vat[0] == '.' || !utf8.ValidString(vat) || strings.ContainsFunc(vat, bad) {
		return fmt.Errorf("%q is not the name of a vat's folder", vat)
	}
	return nil
}

// checkDay refuses names that are not a vat's and a day's.
func checkDay(vat, day string) error {
	if err := CheckVat(vat); err != nil {
		return err
	}
	if !isDay(day) {
		return fmt.Errorf("%q is not a day; a day is named as 2026-11-25 or 2026-11-25-2", day)
	}
	return nil
}

// dateOf is the date in the name of a day: 2026-11-25, and from the second of that date on a number behind it, 2026-11-25-2,
// of at most four figures. False where it is no day's name.
func dateOf(name string) (date string, ok bool) {
	const form = len(time.DateOnly)
	if len(name) < form || name[4] != '-' || name[7] != '-' || !figures(name[:4]+name[5:7]+name[8:form]) {
		return "", false
	}
	date, number := name[:form], name[form:]
	if number != "" && (len(number) < 2 || len(number) > 5 || number[0] != '-' || number[1] == '0' || !figures(number[1:])) {
		return "", false
	}
	return date, true
}

// figures tells whether a text has none but the figures from 0 to 9.
func figures(text string) bool { return strings.Trim(text, "0123456789") == "" }

func isDay(name string) bool {
	_, ok := dateOf(name)
	return ok
}

// compareDays orders by date, then by number: a date's tenth day comes after its second.
func compareDays(a, b string) int {
	const date = len(time.DateOnly)
	if c := strings.Compare(a[:date], b[:date]); c != 0 {
		return c
	}
	m, _ := strconv.Atoi(strings.TrimPrefix(a[date:], "-"))
	n, _ := strconv.Atoi(strings.TrimPrefix(b[date:], "-"))
	return m - n
}
