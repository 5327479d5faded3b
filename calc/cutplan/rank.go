package cutplan

import (
	"cmp"
	"slices"
)

// rank is a child's score and where it stands.
type rank struct {
	score float64
	at    int32
}

// ahead orders ranks: the best score first, among equals the earlier child.
func ahead(a, b rank) int {
	switch {
	case a.score > b.score:
		return -1
	case a.score < b.score:
		return 1
	}
	return cmp.Compare(a.at, b.at)
}

// bestFirst brings the best n ranks to the front, in order; the rest follow in any order
// (quickselect, Hoare 1961).
func bestFirst(all []rank, n int) {
	lo, hi := 0, len(all)
	for hi-lo > 12 && n > lo && n < hi {
		mid := partition(all, lo, hi)
		if mid >= n {
			hi = mid
		} else {
			lo = mid
		}
	}
	slices.SortFunc(all[:max(min(n, len(all)), hi)], ahead)
}

// partition splits a stretch in two that are not empty, all of the first ahead of all of the
// second, and gives where the second starts.
func partition(all []rank, lo, hi int) int {
	a, b, c := all[lo], all[lo+(hi-lo)/2], all[hi-1]
	pivot := b
	if ahead(a, b) > 0 {
		a, b = b, a
	}
	switch {
	case ahead(c, a) < 0:
		pivot = a
	case ahead(c, b) < 0:
		pivot = c
	default:
		pivot = b
	}
	i, j := lo, hi-1
	for {
		for ahead(all[i], pivot) < 0 {
			i++
		}
		for ahead(all[j], pivot) > 0 {
			j--
		}
		if i >= j {
			return max(i, lo+1)
		}
		all[i], all[j] = all[j], all[i]
		i++
		j--
	}
}
