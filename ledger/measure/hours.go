package measure

import (
	"math/big"
	"regexp"
	"strings"

	"piecebook/ledger/fault"
)

// The written forms of hours besides a plain number.
var (
	clock        = regexp.MustCompile(`^(\d{1,4}):([0-5]\d)$`)
	hoursMinutes = regexp.MustCompile(`^(\d{1,4}) ?(?:h|hr|hrs|hour|hours)\.?(?: and)? ?([0-5]?\d) ?(?:m|min|mins|minute|minutes)?\.?$`)
	hoursOnly    = regexp.MustCompile(`^(.+?) ?(?:h|hr|hrs|hour|hours)\.?$`)
	minutesOnly  = regexp.MustCompile(`^(.+?) ?(?:m|min|mins|minute|minutes)\.?$`)
)

// ReadHours reads `2.5`, `2 1/2`, `2:30`, `2h 30m`, `2.5 h`, `150 min` into
// hours. Negative hours are refused; a limit is the caller's.
func ReadHours(text string, style Style) (*big.Rat, *Refusal) {
	text = strings.ToLower(strings.Join(strings.Fields(text), " "))
	for _, form := range []*regexp.Regexp{clock, hoursMinutes} {
		if m := form.FindStringSubmatch(text); m != nil {
			h, _ := new(big.Rat).SetString(m[1])
			minutes, _ := new(big.Rat).SetString(m[2])
			return h.Add(h, minutes.Quo(minutes, big.NewRat(60, 1))), nil
		}
	}
	divisor := big.NewRat(1, 1)
	if m := hoursOnly.FindStringSubmatch(text); m != nil {
		text = m[1]
	} else if m := minutesOnly.FindStringSubmatch(text); m != nil {
		text, divisor = m[1], big.NewRat(60, 1)
	}
	x, refusal := Number(text, style)
	if refusal != nil && refusal.Code == fault.CodeNumberNotRead {
		if why, fix, ok := remark(text, "a number of hours", style); ok {
			return nil, refuse(fault.CodeHoursNotRead, why, fix)
		}
	}
	switch {
	case refusal != nil && refusal.Code != fault.CodeNumberNotRead:
		return nil, refusal
	case refusal != nil:
		return nil, refuse(fault.CodeHoursNotRead, "This is not a number of hours.", "Type "+style.example("2.5")+", 2:30, 2h 30m or 150 min.")
	case x.Sign() < 0:
		return nil, refuse(fault.CodeHoursNotRead, "Hours cannot be negative.", "Type the hours worked, such as "+style.example("2.5")+".")
	}
	return x.Quo(x, divisor), nil
}
