package kinds

import (
	"encoding/json"
	"math/big"
	"strings"
	"testing"

	ledgerkit "piecebook/ledger/testkit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/kinds"
	"piecebook/ledger/offer"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/testkit"
	"piecebook/report/text"
)

// kindBooks is a little of everything: two kinds to rank, one too few to tell,
// one piece without hours, one stolen, a client's, a counted supply.
const kindBooks = `
settings
shop = "Two Kinds"
target_hourly = 20

pieces
piece,kind,got_on,how,price,area,started_on,finished_on,listed_on
A,chair,2026-01-01,,10,10,2026-01-03,2026-01-08,2026-01-10
B,chair,2026-01-01,,20,10,2026-01-05,2026-01-20,2026-01-22
C,chair,2026-01-01,,30,10,2026-01-05,,
D,chair,2026-01-10,free,,10,,2026-01-15,2026-01-20
E,chair,2026-02-01,,15,10,,2026-02-10,2026-02-11
F,table,2026-01-01,,40,20,,,2026-01-15
K,table,2026-01-01,,30,20,,,2026-01-15
L,table,2026-01-01,,35,20,,,2026-01-25
G,mirror,2026-01-01,,5,4,,,
H,table,2026-01-02,client,,20,,,

hours
worked_on,pieces,hours
2026-01-06,A,2
2026-01-07,B,4
2026-01-07,C,1
2026-02-05,E,3
2026-01-07,F,5
2026-01-07,K,4
2026-01-07,L,4
2026-01-08,H,2
2026-01-08,G,1

supplies
supply,group,container,coverage
Primer,primer,1 qt,80

purchases
bought_on,supply,containers,cost
2026-01-02,Primer,3,60

uses
used_on,pieces,supply
2026-01-05,A; B; D,Primer
2026-01-05,F; K; L,Primer

counts
counted_on,supply,left
2026-01-31,Primer,1.5

sales
sold_on,pieces,channel,price,fee,delivery_cost
2026-01-30,A,Mall,80,8,
2026-02-21,B,Mall,60,6,6
2026-02-21,D,fair,12,,
2026-02-25,F,Mall,150,15,
2026-02-25,K,Mall,180,18,
2026-02-25,L,fair,140,,
2026-02-25,G,fair,25,,
2026-02-25,H,direct,90,,

removals
removed_on,piece,why,received
2026-02-10,C,stolen,12

expenses
paid_on,what,group,amount,channel
2026-01-02,rent,booth rent,25,Mall
`

// kindsInput costs books in words up to February 2026.
func kindsInput(t testing.TB, words string) (report.Input, *costing.Ledger) {
	t.Helper()
	end := calendar.MonthOf(2026, 2)
	l := ledgerkit.Costed(t, words, end.String())
	return report.Input{Books: l.Books, Month: figures.For(l, end, end), Fingerprint: "0123456789ab"}, l
}

func TestKindGoldens(t *testing.T) {
	in, l := kindsInput(t, kindBooks)
	r := kinds.Of(l, kinds.Scope{})
	testkit.Golden(t, "kinds.txt", text.Render(Doc(in, r), text.Width))
	out, err := JSON(r, "USD")
	require.NoError(t, err)
	testkit.Golden(t, "kinds.json", string(out)+"\n")

	testkit.Golden(t, "offer.txt", text.Render(OfferDoc(in, offer.Make(l, offer.Ask{Kind: "table"})), text.Width))
	none := offer.Make(l, offer.Ask{Kind: "wardrobe", Hours: big.NewRat(20, 1)})
	testkit.Golden(t, "offer-new.txt", text.Render(OfferDoc(in, none), text.Width))
	out, err = OfferJSON(none)
	require.NoError(t, err)
	testkit.Golden(t, "offer-new.json", string(out)+"\n")
	assert.True(t, json.Valid(out))
}

// lead is a document's first sentence.
func lead(t testing.TB, d page.Document) string {
	t.Helper()
	for _, s := range d.Sections {
		for _, b := range s.Blocks {
			if p, ok := b.(page.Paragraph); ok && p.Style == page.Lead {
				return p.Text
			}
		}
	}
	require.Fail(t, "no sentence to read first")
	return ""
}

// The sentence read first says what there is, at every edge.
func TestFirstSentence(t *testing.T) {
	sold := func(hours, prices string) string {
		words := "settings\ntarget_hourly = 20\n\npieces\npiece,kind,got_on,price\n"
		sales := "\nsales\nsold_on,pieces,channel,price\n"
		times := "\nhours\nworked_on,pieces,hours\n"
		for i, p := range strings.Fields(prices) {
			id := string(rune('A' + i))
			words += id + ",chair,2026-01-01,50\n"
			sales += "2026-01-20," + id + ",fair," + p + "\n"
			times += "2026-01-10," + id + "," + hours + "\n"
		}
		if hours == "" {
			times = ""
		}
		return words + times + sales
	}
	for _, c := range []struct{ name, books, want string }{
		{"nothing sold", "pieces\npiece,kind,got_on,price\nA,chair,2026-01-01,5\n",
			"Nothing has been sold yet in this time (all time)"},
		{"no hours", sold("", "90 95 99"), "No hours are written down"},
		{"two sold", sold("2", "90 95"), "No kind has 3 sales with hours yet"},
		{"one kind", sold("2", "90 95 99"), "Only chair has enough sales to be ranked: in the long run about $22.30 " +
			"an hour before shop costs, $22.30 after (between"},
		{"identical", sold("2", "90 90 90"), "all pieces brought the same, so there is no telling how sure that is"},
		{"all losses", sold("2", "10 15 20"), "in the long run a loss of about $17.50 an hour before shop costs"},
	} {
		t.Run(c.name, func(t *testing.T) {
			in, l := kindsInput(t, c.books)
			d := Doc(in, kinds.Of(l, kinds.Scope{}))
			assert.Contains(t, lead(t, d), c.want)
			assert.NotContains(t, text.Render(d, text.Width), "NaN")
			// Without hours the terminal has the money by kind, as the sentence says.
			glance := text.Render(Glance(in, kinds.Of(l, kinds.Scope{})), text.Width)
			assert.Equal(t, c.name == "no hours", strings.Contains(glance, "Money by kind\n"))
			assert.Equal(t, c.name == "two sold", strings.Contains(glance, "Kinds with under 3 sales\n"))
		})
	}
	for _, c := range []struct{ name, books, kind, want string }{
		{"worth it", sold("2", "190 195 230"), "chair", "Pay at most $165, tax and pickup included"},
		{"too long", sold("8", "90 95 120"), "chair", "Walk away even when it is free: at $20.00 an hour it falls $58 short"},
		{"no hours", sold("", "90 95 120"), "chair", "To break even, pay at most $101. No hours are written down"},
		{"one sold", sold("2", "90"), "chair", "Pay at most $50"},
	} {
		t.Run("offer, "+c.name, func(t *testing.T) {
			in, l := kindsInput(t, c.books)
			d := OfferDoc(in, offer.Make(l, offer.Ask{Kind: c.kind}))
			assert.Contains(t, lead(t, d), c.want)
			assert.NotContains(t, text.Render(d, text.Width), "NaN")
			assert.NotRegexp(t, `(?i)\b(safe|compliant)\b`, text.Render(d, text.Width))
		})
	}
}

// Every piece judged that has hours is a dot, and every table's total is its
// rows' sum.
func TestEveryPieceIsADot(t *testing.T) {
	in, l := kindsInput(t, kindBooks)
	r := kinds.Of(l, kinds.Scope{})
	dots := 0
	for _, b := range everyPiece(&in, r) {
		for _, row := range b.(page.Dots).Rows {
			dots += len(row.Points)
		}
	}
	assert.Equal(t, r.Shop.Timed, dots)
	for _, b := range kindsMoney(&in, r)[:1] {
		rows := b.(page.Table).Rows
		for c := 1; c <= 3; c++ {
			var sum int64
			for _, row := range rows[:len(rows)-1] {
				sum += row.Cells[c].Cents
			}
			assert.Equal(t, rows[len(rows)-1].Cells[c].Cents, sum)
		}
	}
}

func TestChance(t *testing.T) {
	for x, want := range map[float64]string{0: "0 %", 0.0001: "under 1 %", 0.5: "50 %", 0.9999: "over 99 %", 1: "100 %"} {
		assert.Equal(t, want, chance(x))
	}
}
