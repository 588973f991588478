package paper

import "example.org/vatside/model/sheet"

// The forms as the tests look at them: what Set makes, as text.

func Text(s sheet.Sheet) string     { return set(s, "txt") }
func Markdown(s sheet.Sheet) string { return set(s, "md") }
func HTML(s sheet.Sheet) string     { return set(s, "html") }

func set(s sheet.Sheet, form string) string {
	page, err := Set(s, form)
	if err != nil {
		panic(err)
	}
	return page.String()
}
