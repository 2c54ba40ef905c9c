package intake

import (
	"cmp"
	"fmt"
	"math/big"
	"regexp"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/receipts"
	"piecebook/ledger/intake/rows"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/money"
)

// ownMoney is money that the owner moved or took, which changes no profit, and what a
// transfer may be (common practice, no source).
var ownMoney = regexp.MustCompile(`(?i)^(?:` +
	`(?:owner'?s?'? |my |own |cash )?(?:draw|draws|drawing|drawings|withdrawal)(?: for .*)?` +
	`|(?:paid|pay) (?:to )?(?:myself|self|me|owner)|(?:owner|own|my) (?:pay|salary|wages)` +
	`|(?:owner|own) (?:contribution|money|cash)(?: in)?` +
	`|(?:moved?|put|transfer(?:red)?|xfer|cash|money)\b.* (?:savings|checking|bank|personal|(?:my|own) account)\b.*` +
	`|(?:bank |account )?(?:transfer|xfer)(?:red)?(?: (?:in|out|into|to|from)\b.*)?` +
	`|(?:to|from|into) (?:my )?(?:savings|checking)(?: account)?|savings` +
	`|(?:credit card|card|visa|mastercard|amex|loan) (?:payment|paid off|bill)` +
	`|(?:paid|pay) off (?:the |my )?(?:credit card|card|loan|visa)` +
	`)\.?$`)

// askOwnMoney asks about a line that by its words is money moved or taken by the owner.
func (rec *record) askOwnMoney() {
	if ownMoney.MatchString(rec.Raw("what")) {
		rec.Fail("what", fault.CodeOwnMoney, "By its words the owner moved or took this money, which is neither a cost nor "+
			"income of the shop.",
			"If so, take this line out of the table. If not, say in its words what was paid for.")
	}
}

// askCameBack asks about a line whose words say that something was taken back or paid
// back, and whose amounts say that it was bought.
func (r *reading) askCameBack(rec *record, text string) bool {
	of, is := receipts.CameBack(text)
	cost, refusal := values.Money(rec.Cell("cost"), r.settings)
	discount := isSlips(rec) && receipts.TakenOff(text)
	if !is && !discount || rec.Block.Faulty || values.Fold(r.itemOf(text)) == settings.NoTable ||
		refusal != nil || cost <= 0 ||
		strings.HasPrefix(rec.Raw("containers"), "-") {
		return false
	}
	if discount {
		rec.Fail("supply", fault.CodeTakenBackSigns, "By its words this was taken off other lines, and by its amount it was "+
			"paid.", "Take it off the cost of the lines it belongs to, and take this line out.")
		return true
	}
	fix := fmt.Sprintf("If it was, type the cost below 0, as -%s", rec.Raw("cost"))
	if rec.Filled("containers") {
		fix += fmt.Sprintf(", and the containers, as -%s", rec.Raw("containers"))
	}
	if of = cmp.Or(r.supplyThere(of), sharedWord(of, knownNames(r.names.supplies))); of != "" {
		fix += fmt.Sprintf(", and the supply as %s", of)
	}
	rec.Fail("supply", fault.CodeTakenBackSigns, "By its words this was taken back or paid back, and by its amounts it "+
		"was bought.", fix+". If it was bought, leave that word out.")
	return true
}

// several is a name of more than one thing: 2 dining chairs, pair of nightstands.
var several = regexp.MustCompile(
	`(?i)^(?:[2-9]|1\d|two|three|four|five|six|eight|(?:a )?pair(?: of)?|set(?: of)?(?: (?:\d|two|three|four|five|six|eight))?)` +
		` (?:\pL+ )*(\pL+?)s$`)

// noteSeveral notes a line of Pieces whose name is that of several things of its kind.
func (rec *record) noteSeveral(p ledger.Piece) {
	m := several.FindStringSubmatch(strings.TrimSpace(p.ID))
	if m == nil || !strings.HasSuffix(strings.TrimSuffix(strings.ToLower(p.Kind), "s"), strings.ToLower(m[1])) {
		return
	}
	rec.NoteForCause("piece", "several", fault.CodePieceOfSeveral, 0, func(c *rows.Cause) (string, string) {
		return "By its name this is more than one, and it is read as one piece, whose usual area is that of one." +
				c.More(), "It may stay if they are sold together. If not, give each a line in Pieces, and their price a line in " +
				"Lots that these name under lot."
	})
}

// taxLines are what a line of a slip is called that is its sales tax.
var taxLines = []string{"tax", "sales tax", "state tax", "local tax"}

// noteTaxLine notes lines that are the sales tax of a slip, which is a part of what its
// other lines cost.
func (rec *record) noteTaxLine(what string) {
	cents, _ := values.Money(rec.Cell("cost"), rec.r.settings)
	cause := rec.NoteForCause("supply", "tax", fault.CodeSlipUnplaced, int64(cents.Abs()),
		func(c *rows.Cause) (string, string) {
			return fmt.Sprintf("This is the sales tax of a slip, which is a part of what its other lines cost, and %s is in no "+
					"figure.", money.Cents(c.Cents).Grouped()) + c.More(),
				fmt.Sprintf("Add it to the amounts of the lines it belongs to, or type each line's share into a column Tax paid; "+
					"then take this line out, or put %s under [items] of settings.toml.", settings.NameLine(what, settings.NoTable))
		})
	cause.First.First, cause.First.AsksNothing = true, false
}

// noteLessBack notes lines of receipts by which less came back than the containers had
// cost, of which no line says how many went back: a part of them may have been meant, and
// what is missing is a loss.
func (r *reading) noteLessBack() {
	for _, rec := range r.tables["purchases"] {
		i := slices.IndexFunc(r.books.Purchases, func(p ledger.Purchase) bool { return p.At == rec.At })
		if _, bySlip := r.slips[rec]; !bySlip || hasCount(rec) || i < 0 || r.books.Purchases[i].Amount.Sign() > 0 {
			continue
		}
		back := r.books.Purchases[i]
		of := r.boughtBefore(back)
		if of == nil || of.Total() <= 0 {
			continue
		}
		many := new(big.Rat).Neg(back.Amount)
		one := new(big.Rat).Quo(big.NewRat(int64(of.Total()), 1), of.Amount)
		cost := money.Round(new(big.Rat).Mul(one, many))
		got := -back.Total()
		if got >= cost {
			continue
		}
		part := money.AtMost(new(big.Rat).Quo(big.NewRat(int64(got), 1), one), 2)
		rec.Note("cost", fault.CodeLessBack, int64(cost-got), fmt.Sprintf("This got %s back for containers that "+
			"cost %s (%s), "+
			"and no line says how many went back; %s is booked as lost.", got.Grouped(), cost.Grouped(), of.At,
			(cost-got).Grouped()),
			fmt.Sprintf("If only a part went back, add a column Containers with how many each line bought, and type how many "+
				"went back here, such as -%s. If all of it did, it may stay.", part))
	}
}

// boughtBefore is the last purchase of a supply up to the day some of it went back; nil
// where there is none of as much.
func (r *reading) boughtBefore(back ledger.Purchase) (of *ledger.Purchase) {
	for i := range r.books.Purchases {
		p := &r.books.Purchases[i]
		if p.Supply == back.Supply && p.Amount.Sign() > 0 && !back.On.Before(p.On) && (of == nil || !p.On.Before(of.On)) {
			of = p
		}
	}
	if of == nil || new(big.Rat).Add(of.Amount, back.Amount).Sign() < 0 {
		return nil
	}
	return of
}
