// Package receipts reads the words of a shop's slip: how many, of what, and what
// group of supplies they speak of.
//
//	ReadSlip("2x 120 grit sandpaper") = 2, "120 grit sandpaper"
//	GroupOf("120 grit sandpaper") = abrasive
//
// It knows nothing of rows and settings.
package receipts

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"piecebook/ledger/intake/values"
)

// The ways a slip says how many.
var (
	countAhead = regexp.MustCompile(`(?i)^\(?(\d{1,3})\)?\s?(?:x|×|ea\.?|pcs?\.?|@)\s+(.+)$|^(?:x|×)\s?(\d{1,3})\s+(.+)$`)
	countAfter = regexp.MustCompile(`(?i)^(.+?)\s+(?:x|×)\s?(\d{1,3})$|^(.+?)\s+\((\d{1,3})\)$`)
)

// ReadSlip parts the number of things from their name: 1 where none is said.
func ReadSlip(text string) (many int, what string) {
	text = strings.Join(strings.Fields(text), " ")
	if m := countAhead.FindStringSubmatch(text); m != nil {
		n, _ := strconv.Atoi(m[1] + m[3])
		return max(n, 1), m[2] + m[4]
	}
	if m := countAfter.FindStringSubmatch(text); m != nil {
		n, _ := strconv.Atoi(m[2] + m[4])
		return max(n, 1), m[1] + m[3]
	}
	return 1, text
}

// back are words that a line begins or ends with whose things or money came back.
var back = []string{"return", "returns", "returned", "returning", "refund", "refunds", "refunded", "credit", "credited"}

// CameBack says that a line of a slip speaks of what was taken back or paid back, and of
// what: sandpaper of "Return sandpaper"; nothing where it does not say.
func CameBack(text string) (what string, is bool) {
	words := values.Words(text)
	if len(words) == 0 || len(words) > 1 && words[0] == "credit" && words[1] == "card" {
		return "", false
	}
	if slices.Contains(back, words[0]) {
		return strings.Join(words[1:], " "), true
	}
	last := len(words) - 1
	return strings.Join(words[:last], " "), slices.Contains(back, words[last])
}

// discounts are words of a line that says what was taken off others.
var discounts = []string{"discount", "discounts", "coupon", "coupons", "rebate", "markdown", "promo"}

// TakenOff says that a line of a slip speaks of what was taken off others.
func TakenOff(text string) bool {
	return slices.ContainsFunc(values.Words(text), func(w string) bool { return slices.Contains(discounts, w) })
}

// Within says that a text has all words of a phrase, one after the other.
func Within(phrase, text string) bool {
	p, w := values.Words(phrase), values.Words(text)
	for i := 0; len(p) > 0 && i+len(p) <= len(w); i++ {
		if slices.Equal(p, w[i:i+len(p)]) {
			return true
		}
	}
	return false
}

// stores are words that the names of stores end with.
var stores = []string{"store", "stores", "shop", "depot", "mart", "outlet"}

// GroupOf is the group of supplies that the words of a slip speak of, by its
// longest phrase that meant knows; blank where none does, or where phrases as
// long speak of several.
func GroupOf(text string, meant func(phrase string) string) string {
	words := values.Words(text)
	if len(words) > 0 && slices.Contains(stores, words[len(words)-1]) {
		return "" // who it was bought from, and not what
	}
	for n := len(words); n > 0; n-- {
		found := ""
		for i := 0; i+n <= len(words); i++ {
			group := meant(strings.Join(words[i:i+n], " "))
			if group == "" {
				continue
			}
			if found != "" && found != group {
				return ""
			}
			found = group
		}
		if found != "" {
			return found
		}
	}
	return ""
}
