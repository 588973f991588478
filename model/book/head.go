package book

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/wording"
)

// EncodeHead is block 0 of a day's file. The recipe's text is copied whole, comments and all, as the table [recipe].
// A recipe whose text does not read back as the same recipe is refused, so that no day begins on one that is lost.
// So is a head with a text that holds what cannot be shown. What a reader would leave out of it is left out.
func EncodeHead(h day.Head) ([]byte, error) {
	if _, err := gateHead(&h, time.Time{}); err != nil {
		return nil, fmt.Errorf("this head cannot be written: %w", err)
	}
	named := h
	named.Recipe = recipe.Recipe{} // its faults are looked for below
	if err := wording.RefusalIn(named); err != nil {
		return nil, fmt.Errorf("this head cannot be written: %w", err)
	}
	var w bytes.Buffer
	fmt.Fprintf(&w, "format = %d\nvat = %s\nday = %s\nzone = %s\n", Format, quote(h.Vat), quote(h.Day), quote(h.Zone))
	if h.Rehearsed {
		w.WriteString("rehearsed = true\n")
	}
	w.WriteString("\n[setup]\n")
	if err := writeFields(&w, "setup", reflect.ValueOf(h.Setup), false); err != nil {
		return nil, fmt.Errorf("setup: %w", err)
	}
	w.WriteString("\n[opening]\n")
	if err := writeFields(&w, "opening", reflect.ValueOf(h.Opening), false); err != nil {
		return nil, fmt.Errorf("opening: %w", err)
	}
	w.WriteString("\n" + recipeLine + "\n")
	w.Write(inset(h.Recipe.Text))
	out := closed(w.Bytes(), 0)

	b := Read("", out)
	switch {
	case b.HeadErr != nil:
		return nil, fmt.Errorf("this head cannot be written: %w", b.HeadErr)
	case !b.HeadWhole || len(b.Marks)+len(b.Events)+len(b.Torn)+len(b.Unread) > 0 || !sameRecipe(b.Head.Recipe, h.Recipe):
		return nil, fmt.Errorf("the recipe %q cannot be copied into the book: its text does not read back as the same recipe", h.Recipe.ID)
	case len(b.Faults) > 0:
		return nil, fmt.Errorf("the recipe %q has faults: %w", h.Recipe.ID, b.Faults.Err())
	}
	return out, nil
}

// sameRecipe compares what was read, not the text it was read from.
func sameRecipe(a, b recipe.Recipe) bool {
	a.Text, b.Text = "", ""
	return reflect.DeepEqual(a, b)
}

// readHead decodes block 0. The faults are those of today's rules; a day that was begun under older ones goes on.
func readHead(text []byte) (h day.Head, faults recipe.Faults, err error) {
	own, recipeText, found := recipeIn(text)
	tree, err := decode(own)
	if err != nil {
		return h, nil, err
	}
	switch format, ok := tree["format"].(int64); {
	case !ok:
		return h, nil, errors.New("it does not say its format")
	case format != Format:
		return h, nil, fmt.Errorf("it is of format %d, which another version of the program writes", format)
	case !found:
		return h, nil, errors.New("it holds no recipe")
	}
	for _, f := range []struct {
		key string
		to  *string
	}{{"vat", &h.Vat}, {"day", &h.Day}, {"zone", &h.Zone}} {
		if err := readInto(f.to, tree[f.key]); err != nil {
			return h, nil, fmt.Errorf("%s: %w", f.key, err)
		}
	}
	h.Rehearsed, _ = tree["rehearsed"].(bool)
	for _, t := range []struct {
		key string
		to  reflect.Value
	}{{"setup", reflect.ValueOf(&h.Setup).Elem()}, {"opening", reflect.ValueOf(&h.Opening).Elem()}} {
		table, _ := tree[t.key].(map[string]any)
		if _, err := readFields(table, t.to, false, nil); err != nil {
			return h, nil, fmt.Errorf("%s: %w", t.key, err)
		}
	}
	h.Recipe, faults, err = parseRecipe(wording.ShowPage(outset(recipeText)).String())
	return h, faults, err
}

// parseRecipe reads the copied recipe. It is lost only if nothing of it can be read.
func parseRecipe(text string) (r recipe.Recipe, faults recipe.Faults, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("its recipe cannot be read: %v", p)
		}
	}()
	r, faults = recipe.Parse("recipe", []byte(text))
	if r.ID == "" || len(r.Steps) == 0 {
		if _, err := decode([]byte(text)); err != nil {
			return r, nil, fmt.Errorf("its recipe cannot be read: %w", err)
		}
		return r, faults, fmt.Errorf("its recipe cannot be read: %w", faults.Err())
	}
	r.Text = text
	return r, faults, nil
}
