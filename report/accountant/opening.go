package accountant

import (
	"cmp"
	"slices"
	"time"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
	"piecebook/report/words"
)

// numberedPosting is a posting with its number in the ledger, counted from 1.
type numberedPosting struct {
	*ledger.Posting
	number int
}

// opening is what stood when the tax year began: all earlier postings between
// the same accounts, for one reason, of one piece and supply, added up.
type opening struct {
	ledger.Posting             // Month is the last one's
	count          int         // how many postings
	inForm         money.Cents // what they add to the form's stock
	first          calendar.Month
}

// openingKey is what postings are added up by.
type openingKey struct {
	from, to             ledger.Account
	reason               ledger.Reason
	piece, supply, group string
	month                calendar.Month // only of a span that a count of the tax year shares again
}

// carry splits the postings: those of the tax year so far stand in the workbook
// one by one, earlier ones as opening balances. So the workbook is as large as
// a year's work and the stock in hand, however many years the books hold.
//
// Pieces that left before the year, and that nothing was posted for since, have
// no opening balances of their own. What is neither in pieces, on the shelf nor
// owed has none either: it was earned or spent in an earlier year.
func (b *book) carry() {
	b.from = min(b.in.Year.From, b.in.Month.From)
	// What Openings says is posted in the month before the books' first.
	b.carried = slices.ContainsFunc(b.in.Postings, func(p ledger.Posting) bool {
		return p.Month < b.from && p.Reason != ledger.ReasonOpening
	})
	before := func(p ledger.Posting) bool { return b.carried && p.Month < b.from }
	b.kept = map[string]bool{}
	for _, p := range b.in.Month.Pieces {
		b.kept[p.Record.ID] = true
	}
	spans := map[string]calendar.Month{} // by supply: where a span counted in the year begins
	for i, p := range b.in.Postings {
		if before(p) {
			continue
		}
		b.year = append(b.year, numberedPosting{&b.in.Postings[i], i + 1})
		b.kept[p.Piece] = true
		if p.Of == nil || p.Of.Opened == 0 {
			continue
		}
		if first, known := spans[p.Of.Supply]; !known || p.Of.Opened < first {
			spans[p.Of.Supply] = p.Of.Opened
		}
	}
	at := map[openingKey]int{}
	for _, p := range b.in.Postings {
		if !before(p) {
			continue
		}
		key := openingKey{from: p.From, to: p.To, reason: p.Reason, piece: p.Piece, supply: p.Supply, group: p.Group}
		if !b.kept[p.Piece] {
			key.piece, key.group = "", ""
		}
		if key.piece == "" && !balance(p.From) && !balance(p.To) {
			continue
		}
		if first, counted := spans[p.Supply]; counted && p.Month >= first && key.piece != "" {
			key.month = p.Month
		}
		i, known := at[key]
		if !known {
			i = len(b.openings)
			at[key] = i
			b.openings = append(b.openings, opening{Posting: ledger.Posting{From: p.From, To: p.To, Reason: p.Reason,
				Piece: key.piece, Supply: p.Supply, Group: key.group}, first: p.Month})
		}
		o := &b.openings[i]
		o.Cents, o.count, o.Month = o.Cents+p.Cents, o.count+1, p.Month
		if b.form != nil {
			inForm, _ := b.form.InStock(&p)
			o.inForm += inForm
		}
	}
	b.openings = slices.DeleteFunc(b.openings, func(o opening) bool { return o.Cents == 0 && o.inForm == 0 })
	slices.SortStableFunc(b.openings, func(x, y opening) int {
		return cmp.Or(cmp.Compare(x.Piece, y.Piece), cmp.Compare(x.Supply, y.Supply), cmp.Compare(x.Reason, y.Reason),
			cmp.Compare(x.Month, y.Month))
	})
}

// balance says that what stands in an account is carried from year to year.
func balance(a ledger.Account) bool {
	return a == ledger.Pieces || a == ledger.Shelf || a == ledger.TaxOwed
}

// recordsShown are the records of the tax year, also those after the period,
// and those of pieces that are still there.
func (b *book) recordsShown() *ledger.Books {
	if b.in.Books == nil {
		return &ledger.Books{}
	}
	here := map[string]bool{}
	for _, p := range b.in.Month.Pieces {
		here[p.Record.ID] = p.Status == "in stock" || p.Status == "client"
	}
	isHere := func(id string) bool { return here[id] }
	lots := map[string]bool{}
	for _, p := range b.in.Books.Pieces {
		if b.kept[p.ID] {
			lots[p.Lot] = true
		}
	}
	december := calendar.MonthOf(b.in.Month.To.Year(), time.December)
	return b.in.Books.Where(func(r ledger.Record) bool {
		inYear := r.Month >= b.from && r.Month <= december
		switch row := r.Row.(type) {
		case *ledger.Piece:
			return b.kept[row.ID] || inYear
		case *ledger.Surface:
			return b.kept[row.Piece]
		case *ledger.Lot:
			return lots[row.ID] || inYear
		case *ledger.Opening:
			return !b.carried
		case *ledger.Statement:
			return row.Year >= b.from.Year() && row.Year <= december.Year()
		case *ledger.Supply, *ledger.ScheduleLine, *ledger.Channel:
			return true
		}
		return inYear || slices.ContainsFunc(r.Pieces, isHere)
	})
}

// sumYear is Σ cents of the tax year's postings so far that match.
func (b *book) sumYear(match func(ledger.Posting) bool) money.Cents {
	var sum money.Cents
	for _, p := range b.year {
		if match(*p.Posting) {
			sum += p.Cents
		}
	}
	return sum
}

// openingBalance is what stands in an account by the opening balances.
func (b *book) openingBalance(a ledger.Account) money.Cents {
	var sum money.Cents
	for _, o := range b.openings {
		if o.To == a {
			sum += o.Cents
		}
		if o.From == a {
			sum -= o.Cents
		}
	}
	return sum
}

// openingFormula is openingBalance as a formula: into the account or out of it.
func (b *book) openingFormula(a ledger.Account, into string) string {
	before := []string{"Month", `"<"&` + b.yearDay()}
	other := map[string]string{"To": "From", "From": "To"}[into]
	return b.sumIfs("Amount", append([]string{into, `"` + string(a) + `"`}, before...)...) + "-" +
		b.sumIfs("Amount", append([]string{other, `"` + string(a) + `"`}, before...)...)
}

// openingWords says what an opening balance adds up.
func openingWords(o opening) string {
	return "Opening balance: " + words.Plural(o.count, "posting", "postings") + ", " + words.Months(o.first, o.Month)
}
