// Package sorted sorts lists of any type by the same code: slices.SortFunc and its like are compiled anew for each type, which made
// half a megabyte of the program.
package sorted

import "sort"

// By sorts a list, and leaves in their order those that are equal. compare is below 0 where the first comes before the second.
func By[T any](list []T, compare func(a, b T) int) {
	sort.SliceStable(list, func(i, j int) bool { return compare(list[i], list[j]) < 0 })
}
