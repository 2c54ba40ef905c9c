package pdf

import (
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/month"
	"piecebook/report/page"
	"piecebook/report/piece"
	"piecebook/report/trace"
	"piecebook/templates"
)

// march is the month of the hard shop.
var march = calendar.MonthOf(2026, 3)

// hardShop is a shop whose month has all that is hard to set: names of 120
// letters and in other alphabets, 60 supply shares on one piece, 400 pieces in
// stock, a loss, and a sale without hours. Its figures are made up and do not
// tie; only their looks are under test.
func hardShop(t *testing.T) report.Input {
	t.Helper()
	cautions, err := templates.Cautions()
	require.NoError(t, err)
	b := &ledger.Books{Settings: ledger.Settings{Shop: "Tủ & Szafa, " + strings.Repeat("Möbelaufarbeitung ", 5),
		Currency: "USD", Paper: "letter"}}
	m := figures.Figures{From: march, To: march, Currency: "USD",
		Statement: figures.Statement{Expenses: map[string]money.Cents{}}}
	in := report.Input{Books: b, Cautions: cautions, Tally: "9,999 rows read = 9,990 used + 9 skipped",
		Fingerprint: "0123456789ab"}
	for i := range 60 {
		b.Supplies = append(b.Supplies, ledger.Supply{Name: fmt.Sprintf("Lakier bezbarwny półmat nr %d", i),
			Group: []string{"topcoat", "stripper", "abrasive"}[i%3], Container: "1 qt", Unit: "qt",
			Coverage: big.NewRat(int64(i+1), 7), Stays: i%3 == 0})
		m.Shelf = append(m.Shelf, figures.ShelfLine{Supply: &b.Supplies[i], Opening: 1234567, Used: money.Cents(i), Lost: -5,
			Closing: 99999999, Left: big.NewRat(12345, 100), Basis: ledger.Counted, Own: big.NewRat(1111, 10)})
	}
	for i := range m.Shelf {
		m.Shelf[i].Supply = &b.Supplies[i]
	}
	for i := range 404 {
		b.Pieces = append(b.Pieces, hardPiece(i))
	}
	for i := range b.Pieces {
		m.Pieces = append(m.Pieces, hardFigures(&b.Pieces[i], i))
	}
	in.Postings = hardPostings(b)
	for i := range 30 {
		in.Notes = append(in.Notes, fault.Problem{Code: "NOTE", Note: true, Place: fault.Place{File: "records/zażółć " +
			"gęślą jaźń.xlsx", Sheet: strings.Repeat("S", 31), Row: 1 << 20, Column: "wo"},
			Found: strings.Repeat("é", 120), Why: "It is so.", Fix: "Type another.", MoneyCents: int64(i) * 123456789})
	}
	m.TieOut = []figures.Tie{{Name: "pieces roll forward",
		Difference: -1, Terms: []figures.Term{{ID: figures.LineOpening, Cents: 9223372036854775807}}}}
	in.Month, in.Year, in.All = m, m, m.Pieces
	in.Before = &m
	for i := range calendar.Month(12) {
		f := m
		f.From, f.To = march-11+i, march-11+i
		f.Statement.NetProfit = []money.Cents{-999999999999, 0, 5, 99999999999}[i%4]
		in.Last = append(in.Last, f)
	}
	b.Payouts = []ledger.Payout{{At: fault.Place{File: "payouts.csv", Row: 2}, On: march.First(),
		Channel: strings.Repeat("channel ", 20), Amount: 7, Rent: 99999}}
	photos := fstest.MapFS{"tall.jpg": {Data: tinyJPEG(t, 9, 900)}, "cut.jpg": {Data: tinyJPEG(t, 9, 9)[:40]}}
	b.Pieces[0].PhotoBefore, b.Pieces[0].PhotoAfter = "tall.jpg", "cut.jpg"
	b.Pieces[3].PhotoBefore, b.Pieces[3].PhotoAfter = strings.Repeat("Möbel/", 30)+"none.png", "../out.jpg"
	in.Photos = photos
	return in
}

func hardPiece(i int) ledger.Piece {
	names := []string{strings.Repeat("Kommode", 18)[:120], "Szafa gdańska z litego dębu, żółta", "Tủ đựng quần áo gỗ sồi",
		"🪑 stool 日本", ""}
	return ledger.Piece{At: fault.Place{File: "pieces.csv", Row: i + 2}, ID: fmt.Sprintf("P%04d", i),
		Kind:        []string{"dresser", "side chair", strings.Repeat("kind", 30)}[i%3],
		Description: names[i%len(names)], GotOn: calendar.Date{Year: 2024, Month: 1, Day: 1 + i%28},
		From: names[(i+1)%len(names)], How: ledger.Bought}
}

// hardFigures: the first four are sold (at a loss, without hours, with nothing,
// as usual), the rest is in stock.
func hardFigures(p *ledger.Piece, i int) figures.Piece {
	f := figures.Piece{Record: p, Status: "in stock", Hours: big.NewRat(int64(i), 3), BookCost: money.Cents(i * 12345),
		Supplies: money.Cents(i), Held: money.Cents(i % 2 * 1000000)}
	if i > 3 {
		return f
	}
	profit := []money.Cents{-123456, 5000, 0, 1234567890}[i]
	days := 0
	f.Status, f.SoldOn, f.Hours = "sold", calendar.Date{Year: 2026, Month: 3, Day: 9}, []*big.Rat{big.NewRat(7, 3),
		new(big.Rat), new(big.Rat), big.NewRat(1, 3)}[i]
	f.Profit, f.ProfitAfterOverhead, f.SoldLessBought, f.DaysHeld = &profit, &profit, &profit, &days
	if f.Hours.Sign() > 0 {
		f.ProfitPerHour, f.ProfitPerHourAfterOverhead = &profit, &profit
	}
	if i == 3 {
		f.Margin = big.NewRat(-123456, 7)
		for s := range 60 {
			f.Shares = append(f.Shares, figures.Share{Supply: fmt.Sprintf("Lakier bezbarwny półmat nr %d", s), Month: march,
				Cost: 100, Basis: ledger.Stated})
		}
	}
	return f
}

// hardPostings are 60 supply shares on one piece and a few on others.
func hardPostings(b *ledger.Books) []ledger.Posting {
	var out []ledger.Posting
	for i, s := range b.Supplies {
		for _, piece := range []string{"P0003", "P0004", "P0005"} {
			out = append(out, ledger.Posting{Date: march.First(), Month: march, Cents: money.Cents(i*1000 - 7),
				From: ledger.Shelf, To: ledger.Pieces, Piece: piece,
				Supply: s.Name, Reason: ledger.ReasonSupply, Basis: ledger.Stated, Coated: big.NewRat(int64(i)*100+1, 3),
				Source: []fault.Place{{File: "uses.csv", Row: i + 2}, {File: "records/Książka warsztatu.xlsx", Sheet: "Godziny",
					Row: 2*i + 3}},
				How: hardUse(i), Of: hardDraw(s.Name)})
		}
	}
	return append(out, ledger.Posting{Date: march.First(), Month: march, Cents: 100, From: ledger.Receipts,
		To: ledger.Bank, Piece: "P0003", Reason: ledger.ReasonSale,
		Group: strings.Repeat("channel ", 20), Source: []fault.Place{{File: "sales.csv", Row: 2}},
		How: ledger.Derivation{Method: ledger.Typed, Words: strings.Repeat("price", 40)}})
}

// hardUse is a measured share, or one by weight of a large total.
func hardUse(i int) ledger.Derivation {
	d := ledger.Derivation{Method: ledger.UsedSupply, Quantity: big.NewRat(98425, 100000)}
	if i%2 == 1 {
		d.Weight = big.NewRat(24691300, 200)
	}
	return d
}

// hardDraw is what three containers over sixteen months came to.
func hardDraw(supply string) *ledger.Shared {
	return &ledger.Shared{Month: march, Opened: march - 16, Reason: ledger.ReasonSupply, Supply: supply, Total: 123456799,
		By: ledger.ByContainers, Unit: "1 qt",
		Lines: []ledger.SharedLine{{Weight: big.NewRat(1, 1), Cents: 623, Off: 1}},
		Draw: ledger.Draw{Container: "1 " + strings.Repeat("told ", 40), Containers: big.NewRat(3, 1), Rest: big.NewRat(2, 1),
			By: ledger.ByBench, Unit: "sq ft",
			Weight: big.NewRat(9999999, 1)}}
}

// TestHardShop: every report of the hard shop, on both papers.
func TestHardShop(t *testing.T) {
	in := hardShop(t)
	for _, paper := range []string{"letter", "a4"} {
		in.Books.Settings.Paper = paper
		for name, d := range map[string]page.Document{"month": month.Doc(in), "pieces": piece.PeriodSheets(in),
			"sheets": piece.Sheets(in, []string{"P0400", "P0003", "P0000"}),
			"why":    trace.Doc(in, "P0003: supplies", in.Postings, 1)} {
			t.Run(paper+" "+name, func(t *testing.T) { rendered(t, d); kept(t, paper+" "+name, d) })
		}
	}
}

// TestNothingSold: a month in which nothing happened still has its pages.
func TestNothingSold(t *testing.T) {
	in := report.Input{Books: &ledger.Books{Settings: ledger.Settings{Currency: "EUR", Paper: "a4"}},
		Month: figures.Figures{From: march, To: march, Currency: "EUR"}}
	pages := rendered(t, month.Doc(in))
	all := stream(pages)
	assert.Contains(t, all, packed("sold no piece"))
	assert.Contains(t, stream(rendered(t, piece.PeriodSheets(in))), packed("No piece was sold or finished in March 2026."))
}

// TestFirstMonth: the books' first month has no month before it and no usual,
// and a shop without hours has no profit per hour; each is shown, none is drawn.
func TestFirstMonth(t *testing.T) {
	in := hardShop(t)
	in.Before, in.Last = nil, in.Last[11:]
	for i := range in.Month.Pieces {
		p := &in.Month.Pieces[i]
		p.Hours, p.ProfitPerHour, p.ProfitPerHourAfterOverhead = new(big.Rat), nil, nil
	}
	all := stream(rendered(t, month.Doc(in)))
	assert.NotContains(t, all, packed("What changed"))
	assert.NotContains(t, all, packed("month before -"))
	assert.NotContains(t, all, packed("the usual (median)"))
	kept(t, "first month", month.Doc(in))
	assert.Contains(t, stream(rendered(t, piece.Sheets(in, []string{"P0000"}))), packed("no hours written"))
}

// kept leaves the files in the folder PIECEBOOK_LOOK names, to be looked at.
func kept(t *testing.T, name string, d page.Document) {
	t.Helper()
	dir := os.Getenv("PIECEBOOK_LOOK")
	if dir == "" {
		return
	}
	f, err := os.Create(filepath.Join(dir, strings.ReplaceAll(name, " ", "-")+".pdf"))
	require.NoError(t, err)
	require.NoError(t, Write(f, d))
	require.NoError(t, f.Close())
}
