package columns

import (
	"regexp"
	"strings"

	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

// AmountWithin is an amount of money among words, by its sign or its two decimals.
var AmountWithin = regexp.MustCompile(
	`[$€£¥₹] ?\d[\d,]*(?:\.\d{1,2})?|\d[\d,]*(?:\.\d{1,2})? ?[$€£¥₹]|\b\d+\.\d\d\b`)

// Amounts among words: what a bare number is by the word beside it, what is no money
// by the unit after it, and what was never paid by the word before it.
var (
	bareAmount = regexp.MustCompile(`(?i)\b(?:deposit|down|gave back|gave (?:him|her|them) back|refund(?:ed)?|delivery` +
		`|tip(?:ped)?|owe[sd]?|paid|fee|charged(?: him| her| them)?|extra)(?: of| was)? ` +
		`(\d{1,4})(?:$|[ ]?[,;!)]|\.(?:$| )| (?:more|back|cash|for|to|at|from|by|via)\b)` +
		`|(?:^|[ +(])(\d{2,4}) (?:deposit|tip|refund|delivery)\b`)
	unitNext = regexp.MustCompile(`(?i)^ ?(?:["'”″%x×]|(?:in|inch|inches|ft|feet|h|hrs?|hours?|gal|qt|pt|oz|lbs?|mi|miles?` +
		`|cm|mm|m|l|kg|km)\b)`)
	neverPaid = regexp.MustCompile(`(?i)\b(?:ask(?:s|ed|ing)?|list(?:ed|s)?|worth|retails?|offer(?:s|ed)?|value[ds]?` +
		`|est(?:imated?)?|comps?|sells?|was|wants?|wanted|goes)(?: \pL+)? ?[:~]? ?$`)
	aDayBefore = regexp.MustCompile(`(?i)\b(?:on|by|until|till|since|up|dated?) $`) // picked up 3.20
)

// AmountsIn are the amounts of money that a text of words names, signs apart.
func AmountsIn(text string, style measure.Style) (out []money.Cents) {
	if !strings.ContainsAny(text, "0123456789") { // most are without
		return nil
	}
	add := func(at []int) {
		x, refusal := measure.Money(text[at[0]:at[1]], style)
		if refusal == nil && x != 0 && !unitNext.MatchString(text[at[1]:]) && !neverPaid.MatchString(text[:at[0]]) &&
			(text[at[0]] < '0' || !aDayBefore.MatchString(text[:at[0]])) {
			out = append(out, x.Abs())
		}
	}
	for _, at := range AmountWithin.FindAllStringIndex(text, -1) {
		add(at)
	}
	for _, at := range bareAmount.FindAllStringSubmatchIndex(text, -1) {
		if at[2] < 0 {
			at = at[2:]
		}
		add(at[2:4])
	}
	return out
}
