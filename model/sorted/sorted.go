// Package sorted sorts lists of any type by the same code: slices.SortFunc and its like are compiled anew for each type, which made
// half a megabyte of the program.
package sorted

import "sort"

// By sorts a list, and leaves in their order those that are equal. compare is below 0 where the first comes before the second.
func By[T any](list []T, compare func(a, b T) int) {
	sort.Stable(&by[T]{list, compare})
}

type by[T any] struct {
	list    []T
	compare func(a, b T) int
}

func (b *by[T]) Len() int           { return len(b.list) }
func (b *by[T]) Less(i, j int) bool { return b.compare(b.list[i], b.list[j]) < 0 }
func (b *by[T]) Swap(i, j int)      { b.list[i], b.list[j] = b.list[j], b.list[i] }
