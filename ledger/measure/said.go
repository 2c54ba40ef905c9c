package measure

import (
	"math/big"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"piecebook/ledger/money"
)

// SaidKind is how an amount was said beyond its number.
type SaidKind int

// The ways of saying an amount that Money does not take.
const (
	SaidPlain   SaidKind = iota // only the currency's word or sign, a dash for no cents, a minus after
	SaidFree                    // a word for nothing: free - neighbor
	SaidProduct                 // 2 @ 12.50
	SaidFor                     // 3 for $10
	SaidWords                   // a word after the number: $95 cash
)

// SaidMoney is an amount in cents and how it was said. Words are those beside it.
type SaidMoney struct {
	Cents money.Cents
	Kind  SaidKind
	Words string
}

// ownWords are the signs and words of currencies beside those that Money takes
// off: of the shop's own they may stand with any amount (common practice, no source).
var ownWords = map[string][]string{
	"USD": {"us$", "u$", "usd", "dollars", "dollar", "bucks", "buck"},
	"CAD": {"ca$", "c$", "can$", "dollars", "dollar", "bucks", "buck"},
	"AUD": {"au$", "a$", "dollars", "dollar", "bucks", "buck"},
	"NZD": {"nz$", "dollars", "dollar", "bucks", "buck"},
	"EUR": {"euros", "euro", "eur"},
	"GBP": {"pounds", "pound", "quid"},
	"ZAR": {"rands", "rand", "r"},
	"SEK": {"kronor", "krona", "kr.", "kr"},
	"NOK": {"kroner", "krone", "kr.", "kr"},
	"DKK": {"kroner", "krone", "kr.", "kr"},
	"CHF": {"francs", "franc", "franken", "sfr.", "sfr", "fr.", "fr"},
	"PLN": {"złoty", "zloty", "zł", "zl"},
	"CZK": {"korun", "kč", "kc"},
	"JPY": {"yen"},
	"INR": {"rupees", "rupee", "rs.", "rs"},
	"BRL": {"reais", "real", "r$"},
	"MXN": {"pesos", "peso", "mx$"},
}

var (
	times       = regexp.MustCompile(`(?i)^(\d{1,4}) ?(?:@|at\b) ?(.+?)(?: ?(?:each|ea\.?|apiece))?$`)
	manyFor     = regexp.MustCompile(`(?i)^\d{1,4} for (.+)$`)
	noCents     = regexp.MustCompile(`[,.] ?[-–—]{1,2}$`)
	wordsAfter  = regexp.MustCompile(`^([^\pL(]*\d[\d.,]*)(?: ?[-–,]? ?\(([^()]*)\)| ?[-–—,] (.+)| (.+))$`)
	lettersOnly = regexp.MustCompile(`^[\pL][\pL\pM '’/&.,:-]*$`)
	// moneyPictures are pictures that people put beside an amount on a phone and that say
	// no more than a currency's sign: money, a party, a thumb up, a tick in a box.
	moneyPictures = regexp.MustCompile(`[\x{1F4B0}-\x{1F4B8}\x{1F911}\x{1F389}\x{1F38A}\x{1F44D}\x{2705}]\x{FE0F}?`)
	freeOnly      = regexp.MustCompile(`^[^\d]*$|^0 ?\(free\)$`)
)

// changingWords are words beside a number that make it mean something else.
var changingWords = strings.Fields(`each ea apiece per unit tax vat gst deposit down owed owes owe owing due half off
	refund refunded back returned return credit minus less plus net after before fee fees ish or to approx about around
	maybe est estimate estimated guess roughly unpaid pending not never no void cancelled canceled loss profit share
	split both all pair lot set sets k hundred thousand thousands tsd m million millions cents cent c dozen percent pct discount balance left remaining total subtotal
	weekly monthly yearly week month year hour hours mileage miles min minutes neg negative`)

// MoneyAsSaid reads amounts as people say them, which Money refuses: `45
// dollars`, `60,-`, `12.50-`, `free - neighbor`, `2 @ 12.50`, `3 for $10`, `$95
// cash`. ok is false where it could mean anything else.
func MoneyAsSaid(text string, style Style) (said SaidMoney, ok bool) {
	text = strings.TrimSpace(moneyPictures.ReplaceAllString(plainBlanks(text), ""))
	switch {
	case text == "":
		return said, false
	case gratis.MatchString(text) && freeOnly.MatchString(text) && !hasChanging(text):
		return SaidMoney{Kind: SaidFree}, true
	}
	if cents, ok := saidAmount(text, style); ok {
		return SaidMoney{Cents: cents}, true
	}
	if m := times.FindStringSubmatch(text); m != nil {
		if cents, ok := saidAmount(m[2], style); ok {
			n, err := strconv.ParseInt(m[1], 10, 64)
			return SaidMoney{Cents: money.Cents(n) * cents, Kind: SaidProduct}, err == nil && n > 0
		}
	}
	if m := manyFor.FindStringSubmatch(text); m != nil {
		cents, ok := saidAmount(m[1], style)
		return SaidMoney{Cents: cents, Kind: SaidFor}, ok
	}
	number, words := ownWordsOff(text, style.Currency), ""
	if m := wordsAfter.FindStringSubmatch(number); m != nil {
		number, words = strings.TrimSpace(m[1]), strings.TrimSpace(m[2]+m[3]+m[4])
	}
	if !lettersOnly.MatchString(words) || hasChanging(words) || unitAfter(number+" "+firstWord(words)) {
		return said, false
	}
	if _, refusal := Money(words, style); refusal == nil {
		return said, false
	}
	cents, ok := saidAmount(number, style)
	return SaidMoney{Cents: cents, Kind: SaidWords, Words: words}, ok
}

// firstWord is the first of some words.
func firstWord(words string) string {
	first, _, _ := strings.Cut(words, " ")
	return first
}

// bargained is how a price came about: the number is what was paid in the end,
// so its `down` is no payment in part.
var bargained = regexp.MustCompile(`(?i)\b(?:haggled|bargained|talked|marked|knocked|beaten) down\b`)

// hasChanging says that a text has a word that would change what a number means.
func hasChanging(text string) bool {
	text = bargained.ReplaceAllString(text, "")
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(c rune) bool { return !isLetter(c) }) {
		if slices.Contains(changingWords, w) {
			return true
		}
	}
	return false
}

func isLetter(c rune) bool { return c >= 'a' && c <= 'z' || c > 127 }

// saidAmount is an amount by Money with the currency's own words, a dash for no
// cents, or a minus after it.
func saidAmount(text string, style Style) (money.Cents, bool) {
	if cents, refusal := Money(text, style); refusal == nil {
		return cents, true
	}
	bare := noCents.ReplaceAllString(ownWordsOff(text, style.Currency), "")
	negative := false
	if !strings.ContainsAny(bare[:min(1, len(bare))], "-−(") {
		bare, negative = strings.CutSuffix(bare, "-")
		if !negative {
			bare, negative = strings.CutSuffix(bare, "−")
		}
	}
	cents, refusal := Money(strings.TrimSpace(bare), style)
	if refusal != nil {
		return 0, false
	}
	if negative {
		cents = -cents
	}
	return cents, true
}

// ownWordsOff is an amount without the word or sign of the shop's currency.
func ownWordsOff(text, currency string) string {
	low := strings.ToLower(text)
	if len(low) != len(text) {
		return text
	}
	for _, w := range ownWords[currency] {
		rest, is := strings.CutPrefix(low, w)
		if is && rest != "" && !isLetter(rune(rest[0])) {
			return strings.TrimSpace(text[len(w):])
		}
		rest, is = strings.CutSuffix(low, w)
		if is && rest != "" && !isLetter(rune(rest[len(rest)-1])) {
			return strings.TrimSpace(text[:len(rest)])
		}
	}
	return text
}

// Hours as people say them.
var (
	halfHour = regexp.MustCompile(
		`^(?:(?:a |1/2 |½ )?half(?: an?)? ?(?:hour|hr|h)\.?|half hour|1/2 (?:an )?hour|½ (?:an )?hour)$`)
	oneHour = regexp.MustCompile(`^(?:an|one|a) (?:hour|hr)\.?$`)
	andHalf = regexp.MustCompile(
		`^(?:(an|one|a|two|three|four|five|six|seven|eight|\d{1,2}) (?:hours?|hrs?) and a half|(one|two|three|four|five|six|seven|eight|\d{1,2}) and a half(?: hours?| hrs?)?)$`)
	someHour = regexp.MustCompile(`^(two|three|four|five|six|seven|eight|nine|ten) (?:hours|hrs)\.?$`)
	quarters = regexp.MustCompile(`^(?:(?:a )?quarter (?:of an )?hour|(three quarters) of an hour)$`)
	stretch  = regexp.MustCompile(`\s*(?:[;+&\n]|, |\band\b)\s*`)
	numbers  = map[string]int64{"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6,
		"seven": 7,
		"eight": 8, "nine": 9, "ten": 10}
)

// HoursAsSaid reads hours as people say them, which ReadHours refuses: `half an
// hour`, `an hour and a half`, and several stretches in one cell: `2h + 1h 30m`,
// `9:00-11:30, 1:00-3:00`. ok is false where it could mean anything else.
func HoursAsSaid(text string, style Style) (hours *big.Rat, stretches int, ok bool) {
	low := strings.ToLower(strings.TrimSpace(text))
	if x, ok := oneStretch(low); ok {
		return x, 1, true
	}
	parts := stretch.Split(low, -1)
	if len(parts) < 2 {
		return nil, 0, false
	}
	sum := new(big.Rat)
	for _, part := range parts {
		x, ok := clockStretch(part)
		if !ok {
			x, ok = oneStretch(part)
		}
		if !ok && (strings.Contains(low, "+") || strings.ContainsAny(part, "hm:")) {
			var refusal *Refusal
			x, refusal = ReadHours(part, style)
			ok = refusal == nil
		}
		if !ok {
			return nil, 0, false
		}
		sum.Add(sum, x)
	}
	return sum, len(parts), true
}

// oneStretch is a length of time in words.
func oneStretch(text string) (*big.Rat, bool) {
	text = strings.Join(strings.Fields(text), " ")
	number := func(word string) int64 {
		if n, is := numbers[word]; is {
			return n
		}
		return int64(whole(word))
	}
	switch {
	case halfHour.MatchString(text):
		return big.NewRat(1, 2), true
	case oneHour.MatchString(text):
		return big.NewRat(1, 1), true
	}
	if m := quarters.FindStringSubmatch(text); m != nil {
		if m[1] != "" {
			return big.NewRat(3, 4), true
		}
		return big.NewRat(1, 4), true
	}
	if m := andHalf.FindStringSubmatch(text); m != nil {
		return big.NewRat(2*number(m[1]+m[2])+1, 2), true
	}
	if m := someHour.FindStringSubmatch(text); m != nil {
		return big.NewRat(number(m[1]), 1), true
	}
	return nil, false
}

// clockStretch is from when to when, where nothing else can be meant: the end is
// after the start, or noon lies between.
func clockStretch(text string) (*big.Rat, bool) {
	m := fromTo.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil || whole(m[1]) > 24 || whole(m[4]) > 24 || whole(m[2]) > 59 || whole(m[5]) > 59 {
		return nil, false
	}
	from, to := ofTheDay(m[1], m[2], m[3]), ofTheDay(m[4], m[5], m[6])
	if to <= from && m[3] == "" && m[6] == "" && from < 12*60 {
		to += 12 * 60
	}
	if to <= from || to-from > 12*60 {
		return nil, false
	}
	return big.NewRat(int64(to-from), 60), true
}
