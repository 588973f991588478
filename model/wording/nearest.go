package wording

// Nearest is the word that differs from s by the fewest letters, if by no more than a third of them.
func Nearest(s string, words []string) (string, bool) {
	best, least := "", max(1, len(s)/3)+1
	if len(s) > 60 {
		return "", false
	}
	for _, w := range words {
		if d := distance(s, w); d < least {
			best, least = w, d
		}
	}
	return best, best != ""
}

// distance is the number of letters to change, add or take away (Levenshtein).
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		before := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := before
			if a[i] != b[j] {
				cost++
			}
			before = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
