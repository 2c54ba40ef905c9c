package measure

import (
	"fmt"
	"math/big"
	"regexp"
	"strconv"
	"strings"

	"piecebook/ledger/fault"
)

// The written forms of hours besides a plain number.
var (
	clock        = regexp.MustCompile(`^(\d{1,4}):([0-5]\d)$`)
	hoursMinutes = regexp.MustCompile(
		`^(\d{1,4}) ?(?:h|hr|hrs|hour|hours)\.?(?: and)? ?([0-5]?\d) ?(?:m|min|mins|minute|minutes)?\.?$`)
	hoursOnly   = regexp.MustCompile(`^(.+?) ?(?:h|hr|hrs|hour|hours)\.?$`)
	pastTheHour = regexp.MustCompile(`^(\d{1,3}):([6-9]\d)$`)
	fromTo      = regexp.MustCompile(
		`^(\d{1,2})(?:[:.](\d\d))? ?(am|pm)? ?(?:-|–|—|to|until|till) ?(\d{1,2})(?:[:.](\d\d))? ?(am|pm)?$`)
	minutesOnly = regexp.MustCompile(`^(.+?) ?(?:m|min|mins|minute|minutes)\.?$`)
)

// ReadHours reads `2.5`, `2 1/2`, `2:30`, `2h 30m`, `2.5 h`, `150 min` into
// hours. Negative hours are refused; a limit is the caller's.
func ReadHours(text string, style Style) (*big.Rat, *Refusal) {
	if n, decimals, ok := digitsAlone(text, style); ok {
		return big.NewRat(n, powerOf10[decimals]), nil
	}
	text = strings.ToLower(strings.Join(strings.Fields(text), " "))
	for _, form := range []*regexp.Regexp{clock, hoursMinutes} {
		if m := form.FindStringSubmatch(text); m != nil {
			h, _ := new(big.Rat).SetString(m[1])
			minutes, _ := new(big.Rat).SetString(m[2])
			return h.Add(h, minutes.Quo(minutes, big.NewRat(60, 1))), nil
		}
	}
	if refusal := byTheClock(text); refusal != nil {
		return nil, refusal
	}
	divisor := big.NewRat(1, 1)
	if m := hoursOnly.FindStringSubmatch(text); m != nil {
		text = m[1]
	} else if m := minutesOnly.FindStringSubmatch(text); m != nil {
		text, divisor = m[1], big.NewRat(60, 1)
	}
	x, refusal := Number(text, style)
	if refusal != nil && refusal.Code == fault.CodeNumberNotRead {
		if r := remark(fault.CodeHoursNotRead, text, "a number of hours", style); r != nil {
			return nil, r
		}
	}
	switch {
	case refusal != nil && refusal.Code != fault.CodeNumberNotRead:
		return nil, refusal
	case refusal != nil:
		return nil, refuse(fault.CodeHoursNotRead, "This is not a number of hours.", "Type "+style.example("2.5")+
			", 2:30, 2h 30m or 150 min.")
	case x.Sign() < 0:
		return nil, refuse(fault.CodeHoursNotRead, "Hours cannot be negative.", "Type the hours worked, such as "+
			style.example("2.5")+".")
	}
	return x.Quo(x, divisor), nil
}

// byTheClock refuses what a clock would show: a time from when to when, and
// minutes that are more than an hour. It says what they come to.
func byTheClock(text string) *Refusal {
	if m := pastTheHour.FindStringSubmatch(text); m != nil {
		return refuse(fault.CodeHoursNotRead, fmt.Sprintf("An hour has 60 minutes, and %s stand after the colon.", m[2]),
			fmt.Sprintf("If %s hours and %s minutes are meant, type %s; if a part of an hour, type it with a decimal mark.",
				m[1], m[2], spent(whole(m[1])*60+whole(m[2]))))
	}
	m := fromTo.FindStringSubmatch(text)
	if m == nil || m[2]+m[3]+m[5]+m[6] == "" || whole(m[1]) > 24 || whole(m[4]) > 24 || whole(m[2]) > 59 ||
		whole(m[5]) > 59 {
		return nil
	}
	from, to := ofTheDay(m[1], m[2], m[3]), ofTheDay(m[4], m[5], m[6])
	if to <= from {
		to += 12 * 60 // noon lies between, or am and pm were left out
	}
	fix := "Type the hours between the two, such as 2:30."
	if to > from && to-from <= 12*60 {
		fix = fmt.Sprintf("Type %s, if that is what lies between the two.", spent(to-from))
	}
	return refuse(fault.CodeHoursNotRead, "This is from when to when, and the cell takes how long it was.", fix)
}

// ofTheDay is a time as minutes after midnight.
func ofTheDay(hours, minutes, half string) int {
	h := whole(hours)
	if half != "" {
		h %= 12
	}
	if half == "pm" {
		h += 12
	}
	return h*60 + whole(minutes)
}

// spent is minutes as hours are typed: 2:30.
func spent(minutes int) string { return fmt.Sprintf("%d:%02d", minutes/60, minutes%60) }

// whole is a few digits as a number, 0 for none.
func whole(digits string) int {
	n, err := strconv.Atoi(digits)
	if err != nil {
		return 0
	}
	return n
}
