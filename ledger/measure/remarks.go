package measure

import (
	"regexp"
	"strings"

	"piecebook/ledger/fault"
)

// What people write in a cell beside a number or instead of one.
var (
	figureWithin = regexp.MustCompile(`\d[\d.,]*`)
	estimated    = regexp.MustCompile(
		`(?i)^(?:~|≈|about|abt\.?|approx\.?|approximately|ca\.?|circa|around|roughly|est\.?|maybe|less than|under|over|up to|<|>)\s*\D?\d|\d\s*(?:\?+|\(?est\.?\)?|ish|or so|\+)$`)
	ranged  = regexp.MustCompile(`(?i)^\D{0,2}\d[\d.,]*\s*(?:-|–|—|to|or|\.\.+|/)\s*\D?\d[\d.,]*\D{0,2}$`)
	plusTax = regexp.MustCompile(`(?i)\d.*\btax\b`)
	summed  = regexp.MustCompile(`^\D?\d[\d.,]*(?:\s*[+*x×]\s*\D?\d[\d.,]*)+(?:\s*[^\d\s].*)?$`)
	nothing = regexp.MustCompile(
		`(?i)^(?:n/?a|n\.a\.|-+|–|—|\?+|x|tbd|tba|unknown|unk|not sure|\.+|blank|pending|nil|none|null|#n/a)$`)
	aDay = regexp.MustCompile(`^\d{1,4}([-/.])\d{1,2}[-/.]\d{1,4}$`)
	// A letter typed for a digit that looks like it.
	letterForDigit = regexp.MustCompile(`^[$€£¥₹]?[\d.,]*\d[\d.,]*[oOlI][\doOlI.,]*$|^[oOlI][\d.,oO]*\d[\d.,oO]*$`)
	percentage     = regexp.MustCompile(`\d\s*%`)
	gratis         = regexp.MustCompile(
		`(?i)^(?:free|gift|gratis|nothing|no charge|n/?c|zero|0 ?\(free\)|given|for free|curb|found)\b`)
)

// remarks say of each what it is, and what to type: {what} is what the cell should
// hold, {alone} the number in it, {digits} the text with digits for letters. Needed
// is what to type where the cell cannot be left blank.
var remarks = []struct {
	is               func(string) bool
	why, fix, needed string
	free             bool
}{
	{letterForDigit.MatchString, "There is a letter among the digits.", "Type digits only: {digits}, if that is it.", "", false},
	{gratis.MatchString, "This is a word and not {what}.", "Type 0 if it was nothing.", "", true},
	{nothing.MatchString, "This is a mark for a blank cell and not {what}.", "Leave the cell blank, or type 0 if it was nothing.",
		"Type what it was, or 0 if it was nothing.", false},
	{aDay.MatchString, "This looks like a day and not like {what}.", "See whether the cell is in the wrong column, and type the number.", "", false},
	{plusTax.MatchString, "Tax has a column of its own, and this cell can hold one number only.", "Type {alone} here, and the tax in its column.", "", false},
	{percentage.MatchString, "This is a percentage and not {what}.",
		"Work it out and type the result; percentages of a channel's fees belong in Channels.", "", false},
	{estimated.MatchString, "An estimate has a mark that is not part of {what}.", "Type your best figure without the mark, such as {alone}.", "", false},
	{ranged.MatchString, "These are two numbers, and it can be only one of them.", "Type the one that was meant, or your best figure.", "", false},
	{summed.MatchString, "This is a sum to be worked out, and the cell can hold its result only.", "Work it out and type the result.", "", false},
	{thousands.MatchString, "The letter stands for thousands here, and is too easily misread.", "Type the number in full, with all its zeros.", "", false},
	{unitAfter, "There is a unit beside the number, and this cell holds {what} without one.",
		"Work out what it comes to in what this column counts, and type that number alone.", "", false},
	{startsNumber.MatchString, "There are words beside the number.", "Type the number alone, such as {alone}; words go into another column.", "", false},
}

// remark refuses a text that is no number for what it is: an estimate, a range,
// a sum, a number with words. what is what the cell should hold, with its
// article: an amount of money. nil for anything else.
func remark(code fault.Code, text, what string, style Style) *Refusal {
	alone := style.example("20")
	if m := figureWithin.FindString(text); m != "" {
		alone = strings.TrimRight(m, ".,")
	}
	digits := strings.NewReplacer("o", "0", "O", "0", "l", "1", "I", "1").Replace(text)
	fill := strings.NewReplacer("{what}", what, "{alone}", alone, "{digits}", digits)
	for _, r := range remarks {
		if r.is(text) {
			return &Refusal{Code: code, Why: fill.Replace(r.why), Fix: fill.Replace(r.fix), FixNeeded: r.needed, Free: r.free}
		}
	}
	return nil
}

// startsNumber is a number, with a currency sign or none, and words after it.
var startsNumber = regexp.MustCompile(
	`^[-−+]?\s*[$€£¥₹]?\s*\d[\d.,]*[^\d\s.,]*\s+\D+$|^[-−+]?\s*[$€£¥₹]?\s*\d[\d.,]*\s*[A-Za-z]+$`)

// thousands is a number with k for thousands: 1.2k.
var thousands = regexp.MustCompile(`(?i)^\D?\d[\d.,]*\s*k$`)

// unitAfter says that a number has a unit after it: without the unit the
// number would mean something else.
func unitAfter(text string) bool {
	number, unit := splitUnit(text)
	_, known := FindUnit(unit)
	return known && number != ""
}
