package year

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/templates"
)

// Fees are shown by channel, a record once however many pieces share it;
// expenses by what was paid for.
func TestExpenseRows(t *testing.T) {
	day := calendar.Date{Year: 2026, Month: 3, Day: 9}
	at := func(row int) []fault.Place { return []fault.Place{{File: "records/sales.csv", Row: row}} }
	typed := func(words string) ledger.Derivation { return ledger.Derivation{Method: ledger.Typed, Words: words} }
	of := func(name string, postings ...ledger.Posting) taxyear.Part {
		return taxyear.Part{Term: templates.Term{Name: name}, Postings: postings}
	}
	rows := func(part taxyear.Part) []string {
		var out []string
		for _, r := range expenseRows(part) {
			out = append(out, r.Cells[0].Text+"/"+r.Cells[1].Text+"/"+money.Cents(r.Cells[2].Cents).String())
		}
		return out
	}
	assert.Equal(t, []string{"Fees, Market/2/12.01", "Fees, Direct, no channel/1/0.30"}, rows(of("fees",
		ledger.Posting{Date: day, Reason: ledger.ReasonFee, Group: "Market", Piece: "A", Cents: 501, Source: at(4)},
		ledger.Posting{Date: day, Reason: ledger.ReasonFee, Group: "Market", Piece: "B", Cents: 500, Source: at(4)},
		ledger.Posting{Date: day, Reason: ledger.ReasonCardFee, Cents: 30, Source: at(4)},
		ledger.Posting{Date: day, Reason: ledger.ReasonFee, Group: "Market", Piece: "C", Cents: 200, Source: at(5)})))
	assert.Equal(t, []string{"Policy, quarter/2/186.00", "Flyer/1/8.00"}, rows(of("expense: insurance",
		ledger.Posting{Reason: ledger.ReasonExpense, Cents: 9300, Source: at(1), How: typed("policy, quarter")},
		ledger.Posting{Reason: ledger.ReasonExpense, Cents: 9300, Source: at(2), How: typed("policy, quarter")},
		ledger.Posting{Reason: ledger.ReasonExpense, Cents: 800, Source: at(3), Of: &ledger.Shared{How: typed("flyer")}})))
	assert.Equal(t, "Stripper", expenseRows(of("supplies when used", ledger.Posting{Reason: ledger.ReasonSupply,
		Supply: "Stripper", Cents: 20, Source: at(9)}))[0].Cells[0].Text)
}

// The headline says how far the year's records reach.
func TestSpan(t *testing.T) {
	for _, c := range []struct {
		first, last time.Month
		want        string
	}{
		{time.January, time.December, "In 2026"},
		{time.May, time.December, "In 2026"},
		{time.January, time.January, "In January 2026, the year so far,"},
		{time.January, time.February, "In January and February 2026, the year so far,"},
		{time.March, time.July, "From March to July 2026, the year so far,"},
	} {
		y := &taxyear.Year{Year: 2026, Last: calendar.MonthOf(2026, c.last),
			Months: []figures.Figures{{From: calendar.MonthOf(2026, c.first)}}}
		assert.Equal(t, c.want, span(y))
	}
	assert.Equal(t, "In 2026 so far", span(&taxyear.Year{Year: 2026, Months: []figures.Figures{{}}}))
}
