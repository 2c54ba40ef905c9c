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
	rate  bool        // value is parts in 10,000
	// usual is what it is compared with, the narrowest first: the first of which
	// there are enough decides.
	usual []usual
	// most is what the row itself allows, 0 where it says nothing, and above its
	// words: 'above the 120.00 that is asked for it'.
	most  money.Cents
	above string
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
		if s.most > 0 && s.cents > s.most {
			out = append(out, doubt{s, fmt.Sprintf("%s, %s.", s.about, s.above), s.cents - s.most})
			continue
		}
		for _, u := range s.usual {
			others := len(values[u.key]) - 1
			if others < u.least {
				continue
			}
			twice := twiceMedianWithout(values[u.key], s.value)
			if !scattered && !u.agree(values[u.key], s.value, twice) {
				continue
			}
			if d, is := l.far(s, u, twice, others); is {
				out = append(out, d)
			}
			break
		}
	}
	return out
}

// agree says that the others differ so little that there is a usual: of three two
// are within the square root of what is far from their median.
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
	return 3*near >= 2*(len(sorted)-1)
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
	if s.rate {
		middle = l.decimal(money.AtMost(big.NewRat(twice, 200), 1)) + " %"
	}
	likely := money.Round(new(big.Rat).Mul(s.cents.Rat(), big.NewRat(twice, 2*s.value)))
	return doubt{s, fmt.Sprintf("%s, %s %s, the median of the %d other %s.", s.about, words, middle, others, u.of),
		(s.cents - likely).Abs()}, true
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
