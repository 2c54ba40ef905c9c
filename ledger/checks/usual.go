package checks

import (
	"fmt"
	"math/big"
	"slices"
	"sort"

	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// sized is an amount of a record with what it is compared with.
type sized struct {
	at    fault.Place // its cell
	found string
	about string      // 'A container of Primer cost 240.00'
	cents money.Cents // what it comes to
	value int64       // what is compared: cents, or cents for each of something, or parts in 10,000
	base  money.Cents // what value is parts in 10,000 of; 0: it is none
	// usual is what it is compared with, the narrowest first: the first of which
	// there are enough decides.
	usual []usual
	// least and most are what the row itself allows, 0 where it says nothing, below
	// and above their words: 'above the 120.00 that is asked for it'.
	least, most  money.Cents
	below, above string
}

// usual is one thing an amount is compared with.
type usual struct {
	key   string // those of one key are compared with each other
	times int64  // how many times their median, up or down, is far
	least int    // of others that it takes
	of    string // 'purchases of it'
}

// doubt is an amount that is far from what is usual, or from what its row allows.
type doubt struct {
	sized
	why   string
	moves money.Cents
}

// doubts finds the amounts that are far; each is compared with all of its key
// but itself. scattered says that it is so even where those differ so much that
// there is hardly a usual.
func (l *look) doubts(all []sized, scattered bool) []doubt {
	values := map[string][]int64{}
	for _, s := range all {
		for _, u := range s.usual {
			values[u.key] = append(values[u.key], s.value)
		}
	}
	for _, v := range values {
		slices.Sort(v)
	}
	var out []doubt
	for _, s := range all {
		d, is := s.outside()
		if of, far := l.unusual(s, values, scattered); far && (!is || of.moves > d.moves) {
			d, is = of, true
		}
		if is {
			out = append(out, d)
		}
	}
	return out
}

// unusual says that an amount is far from the first usual of its own that there are
// enough others for.
func (l *look) unusual(s sized, values map[string][]int64, scattered bool) (d doubt, is bool) {
	for _, u := range s.usual {
		others := len(values[u.key]) - 1
		if others < u.least {
			continue
		}
		twice := twiceMedianWithout(values[u.key], s.value)
		if scattered || u.agree(values[u.key], s.value, twice) && alone(values[u.key], s.value) {
			return l.far(s, u, twice, others)
		}
	}
	return d, false
}

// outside says that an amount is not what its row allows. Above, it could move the
// distance to that; below, nine times itself, as where its point has slipped by
// one place.
func (s sized) outside() (d doubt, is bool) {
	switch {
	case s.most > 0 && s.cents > s.most:
		return doubt{s, fmt.Sprintf("%s, %s.", s.about, s.above), s.orBase(s.most)}, true
	case s.cents < s.least:
		return doubt{s, fmt.Sprintf("%s, %s.", s.about, s.below), 9 * s.cents}, true
	}
	return d, false
}

// orBase is how much an amount moves that is likely to be another one; of a part of
// a base the more of that and of what the base moves, where that is what is wrong.
func (s sized) orBase(likely money.Cents) money.Cents {
	moves := (s.cents - likely).Abs()
	if s.base == 0 || likely <= 0 {
		return moves
	}
	base := money.Round(new(big.Rat).Mul(s.base.Rat(), big.NewRat(int64(s.cents), int64(likely))))
	return max(moves, (s.base - base).Abs())
}

// fewOthers is so few others that one that differs leaves no usual.
const fewOthers = 6

// agree says that the others differ so little that there is a usual: of three two,
// of few all, are within the square root of what is far from their median.
func (u usual) agree(sorted []int64, one, twice int64) bool {
	close := int64(1)
	for (close+1)*(close+1) <= u.times {
		close++
	}
	from := sort.Search(len(sorted), func(i int) bool { return 2*sorted[i]*close >= twice })
	to := sort.Search(len(sorted), func(i int) bool { return 2*sorted[i] > close*twice })
	near := to - from
	if 2*one*close >= twice && 2*one <= close*twice {
		near-- // itself
	}
	others := len(sorted) - 1
	return near == others || others > fewOthers && 3*near >= 2*others
}

// alone says that no other is within twice or half of one of the values.
func alone(sorted []int64, one int64) bool {
	from := sort.Search(len(sorted), func(i int) bool { return 2*sorted[i] >= one })
	to := sort.Search(len(sorted), func(i int) bool { return sorted[i] > 2*one })
	return to-from <= 1
}

// far says that an amount is so many times above or below a median, of which the
// double is given. It could move its distance from what the median would make it.
func (l *look) far(s sized, u usual, twice int64, others int) (d doubt, is bool) {
	words := ""
	switch {
	case twice <= 0 || s.value <= 0:
		return d, false
	case 2*s.value > u.times*twice:
		words = fmt.Sprintf("over %d times", u.times)
	case 2*s.value*u.times < twice:
		words = fmt.Sprintf("under 1/%d of", u.times)
		if u.times == 4 {
			words = "under a quarter of"
		}
	default:
		return d, false
	}
	middle := l.amount(money.Round(big.NewRat(twice, 2)))
	if s.base > 0 {
		middle = l.decimal(money.AtMost(big.NewRat(twice, 200), 1)) + " %"
	}
	likely := money.Round(new(big.Rat).Mul(s.cents.Rat(), big.NewRat(twice, 2*s.value)))
	return doubt{s, fmt.Sprintf("%s, %s %s, the median of the %d other %s.", s.about, words, middle, others, u.of),
		s.orBase(likely)}, true
}

// twiceMedianWithout is double the median of sorted values but for one of them.
func twiceMedianWithout(sorted []int64, one int64) int64 {
	at, _ := slices.BinarySearch(sorted, one)
	other := func(i int) int64 {
		if i >= at {
			i++
		}
		return sorted[i]
	}
	n := len(sorted) - 1
	if n%2 == 1 {
		return 2 * other(n/2)
	}
	return other(n/2-1) + other(n/2)
}
