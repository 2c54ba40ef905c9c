package taxyear_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"piecebook/report/words"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/ledger/testkit/bookgen"
)

// Books for the remarks, in words; each case adds rows of its own.
const (
	remarkPieces = `
pieces
piece,kind,how,got_on,price,area
A,dresser,bought,2026-01-05,100,20
B,chair,bought,2026-01-05,40,10
`
	remarkSale = `
sales
sold_on,pieces,channel,type,price,fee,card_fee
`
	remarkExpenses = `
expenses
paid_on,what,group,amount,to,channel
`
	remarkParts = `
parts
bought_on,pieces,what,cost,type,from
`
	remarkRemovals = `
removals
removed_on,piece,why,received,value,receipt
`
	remarkIncome = `
other income
got_on,what,group,amount
`
	remarkStatements = `
statements
year,channel,gross
`
)

// many is a row so many times, with the number in place of %d.
func many(row string, n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, row, i)
	}
	return b.String()
}

// crates are pieces of a lot of small sales, C000 on.
func crates(n int) string { return many("C%03d,stool,bought,2026-01-05,1,5\n", n) }

// remarked is a year's remarks and what is missing, as words.
func remarked(y *taxyear.Year) []string {
	var out []string
	for _, m := range slices.Concat(y.Missing, y.Remarks) {
		out = append(out, words.YearNote(m.Note))
	}
	return out
}

// remarkCase is a remark's words, with books that call for it and books that do not.
type remarkCase struct {
	words   string
	must    [2]string
	mustNot [2]string
}

// checkRemarks works each book's year out and looks for the remark.
func checkRemarks(t *testing.T, of int, cases []remarkCase) {
	t.Helper()
	for _, c := range cases {
		for i := range 2 {
			assert.Contains(t, strings.Join(remarked(year(t, bookgen.InWords(c.must[i]), of)), "\n"), c.words,
				"%s: must, case %d", c.words, i+1)
			assert.NotContains(t, strings.Join(remarked(year(t, bookgen.InWords(c.mustNot[i]), of)), "\n"), c.words,
				"%s: must not, case %d", c.words, i+1)
		}
	}
}

// Goal: each remark stands where its own amount is, and nowhere else. Method: of
// each, two books of a year that call for it and two that do not.
func TestRemarksOnlyWhereTheirAmountIs(t *testing.T) {
	pieces, sale, expenses, parts := remarkPieces, remarkSale, remarkExpenses, remarkParts
	checkRemarks(t, 2026, []remarkCase{
		{words: "Line 6: money for tools sold",
			must: [2]string{remarkIncome + "2026-03-01,sander,tool sold,30\n", remarkIncome + "2026-03-01,saw,tool sold,5\n"},
			// A rebate, and a tool sold the year before.
			mustNot: [2]string{remarkIncome + "2026-03-01,paint,rebate,30\n", remarkIncome + "2025-03-01,saw,tool sold,5\n"}},
		{words: "Line 6: money received for stolen pieces",
			must: [2]string{pieces + remarkRemovals + "2026-03-01,A,stolen,80,,F1\n",
				pieces + remarkRemovals + "2026-03-01,B,stolen,0.01,,F1\n"},
			// Stolen without money, and scrap money.
			mustNot: [2]string{pieces + remarkRemovals + "2026-03-01,A,stolen,,,F1\n",
				pieces + remarkRemovals + "2026-03-01,A,scrapped,12,,F1\n"}},
		{words: "Line 20b: rent of booth and storage",
			must: [2]string{expenses + "2026-03-01,booth,booth rent,30,,\n", expenses + "2026-03-01,unit,storage,30,,\n"},
			mustNot: [2]string{expenses + "2026-03-01,policy,insurance,30,,\n",
				expenses + "2026-03-01,booth,booth rent,30,,\n2026-04-01,booth back,booth rent,-30,,\n"}},
		{words: "Line 22: small tools",
			must:    [2]string{expenses + "2026-03-01,chisels,small tools,30,,\n", expenses + "2026-03-01,x,small tools,1,,\n"},
			mustNot: [2]string{expenses + "2026-03-01,belt,repairs,30,,\n", expenses + "2025-03-01,x,small tools,1,,\n"}},
		{words: "of pieces donated in the year they were got is taken out of line 36",
			must: [2]string{pieces + remarkRemovals + "2026-03-01,A,donated,,120,R1\n",
				pieces + remarkRemovals + "2026-03-01,B,donated,,,\n"},
			mustNot: [2]string{pieces + remarkRemovals + "2026-03-01,A,kept,,120,\n",
				pieces + remarkRemovals + "2026-03-01,A,scrapped,,,\n"}},
		{words: "Line 39: outside work",
			must: [2]string{pieces + parts + "2026-03-01,A,caning,30,outside work,Weaver\n",
				pieces + parts + "2026-03-01,A;B,seat,30,outside work,\n"},
			mustNot: [2]string{pieces + parts + "2026-03-01,A,knob,30,part,Weaver\n", pieces}},
		{words: "Line 48: equipment written off at once",
			must:    [2]string{equipment("2026-03-01,sander,100,,at once,,\n"), equipment("2026-03-01,sander,100,,,,\n")},
			mustNot: [2]string{equipment("2026-03-01,saw,100,,5,,\n"), equipment("2026-03-01,saw,3000,,at once,,\n")}},
		{words: "is below zero",
			must: [2]string{expenses + "2026-03-01,back,repairs,-25,,\n", expenses + "2026-03-01,back,utilities,-1,,\n"},
			mustNot: [2]string{expenses + "2026-03-01,belt,repairs,30,,\n2026-03-02,back,repairs,-25,,\n",
				expenses + "2026-03-01,belt,repairs,30,,\n"}},
		{words: "Below zero for the year",
			must:    [2]string{expenses + "2026-03-01,belt,repairs,30,,\n", pieces + sale + "2026-02-01,A,booth,sale,50,,\n"},
			mustNot: [2]string{pieces + sale + "2026-02-01,A,booth,sale,150,,\n", pieces}},
		{words: "part payments on pieces that had not left",
			must: [2]string{pieces + sale + "2026-02-01,A,booth,part payment,50,,\n",
				pieces + sale + "2026-02-01,B,booth,part payment,1,,\n"},
			mustNot: [2]string{pieces + sale + "2026-02-01,A,booth,part payment,50,,\n2026-03-01,A,booth,sale,60,,\n",
				pieces + sale + "2026-02-01,A,booth,sale,50,,\n"}},
		{words: "so Form 4562 goes with the return",
			must:    [2]string{equipment("2026-03-01,saw,100,,5,,\n"), equipment("2026-03-01,saw,3000,,at once,,\n")},
			mustNot: [2]string{equipment("2026-03-01,saw,100,,at once,,\n"), equipment("2025-03-01,saw,100,,5,,\n")}},
		{words: "so all of it goes by the tables by quarter",
			must: [2]string{equipment("2026-10-01,saw,100,,5,,\n"),
				equipment("2026-12-01,saw,41,,7,,\n2026-02-01,vise,59,,5,,\n")},
			mustNot: [2]string{equipment("2026-09-30,saw,100,,5,,\n"),
				equipment("2026-12-01,saw,40,,7,,\n2026-02-01,vise,60,,5,,\n")}},
		{words: "as a special allowance in the first year, unless it is elected out",
			must:    [2]string{equipment("2026-03-01,lathe,3000,,7,,\n"), equipment("2026-03-01,lathe,2600,,5,,\n")},
			mustNot: [2]string{equipment("2026-03-01,lathe,3000,,first year,,\n"), equipment("2025-03-01,lathe,3000,,7,,\n")}},
		{words: "above the limit per item of 2,500.00, and is written off at once",
			must: [2]string{equipment("2026-03-01,lathe,3000,,at once,,\n"),
				equipment("2026-03-01,lathe,2400,101,at once,,\n")},
			mustNot: [2]string{equipment("2026-03-01,lathe,2500,,at once,,\n"), equipment("2026-03-01,lathe,3000,,7,,\n")}},
		{words: "a record for Form 4797",
			must: [2]string{equipment("2025-03-01,saw,100,,5,2026-04-01,60\n"),
				equipment("2024-03-01,saw,100,,at once,2026-04-01,60\n")},
			mustNot: [2]string{equipment("2025-03-01,saw,100,,5,,\n"), equipment("2024-03-01,saw,100,,5,2025-04-01,60\n")}},
		{words: "not seen in print",
			must: [2]string{equipment("2021-02-01,saw,100,,7,,\n2021-12-01,vise,900,,7,,\n"),
				equipment("2021-08-01,saw,100,,5,,\n2021-12-01,vise,900,,7,,\n")},
			// By the half-year table, and by that of the fourth quarter.
			mustNot: [2]string{equipment("2021-02-01,saw,100,,7,,\n"), equipment("2021-12-01,saw,100,,7,,\n")}},
		{words: "(1099-NEC)",
			must: [2]string{pieces + parts + "2026-03-01,A,caning,2000,outside work,Weaver\n",
				expenses + "2026-03-01,books,legal and professional,1500,J Law,\n2026-04-01,books,legal and " +
					"professional,500,j law,\n"},
			mustNot: [2]string{pieces + parts + "2026-03-01,A,caning,1999.99,outside work,Weaver\n",
				expenses + "2026-03-01,books,legal and professional,1500,J Law,\n2026-04-01,flyer,advertising,500,J Law,\n"}},
		{words: "(1099-MISC)",
			must: [2]string{expenses + "2026-03-01,booth,booth rent,2400,Hall,\n", expenses +
				"2026-03-01,x,storage,2400,,Mall\n"},
			mustNot: [2]string{expenses + "2026-03-01,booth,booth rent,2400,,\n", expenses +
				"2026-03-01,policy,insurance,2400,Hall,\n"}},
		{words: "No payee is named for",
			must: [2]string{expenses + "2026-03-01,booth,booth rent,24,,\n", pieces + parts +
				"2026-03-01,A,x,30,outside work,\n"},
			mustNot: [2]string{expenses + "2026-03-01,booth,booth rent,24,Hall,\n", expenses + "2026-03-01,ink,office,24,,\n"}},
		{words: "of utilities. If it includes bills of the home",
			must: [2]string{expenses + "2026-03-01,shop share,utilities,24,,\n", expenses +
				"2026-03-01,gas,utilities,24,Co,\n"},
			mustNot: [2]string{expenses + "2026-03-01,ink,office,24,,\n", expenses + "2025-03-01,gas,utilities,24,Co,\n"}},
		{words: "No yearly statement of",
			must: [2]string{"\npieces\npiece,kind,how,got_on,price,area\n" + crates(201) + sale +
				many("2026-02-01,C%03d,web,sale,100,1,\n", 201),
				"\npieces\npiece,kind,how,got_on,price,area\n" + crates(250) + sale + many("2026-02-01,C%03d,web,sale,81,1,\n", 250)},
			// 200 sales, and not above 20,000.
			mustNot: [2]string{"\npieces\npiece,kind,how,got_on,price,area\n" + crates(200) + sale +
				many("2026-02-01,C%03d,web,sale,200,1,\n", 200),
				"\npieces\npiece,kind,how,got_on,price,area\n" + crates(201) + sale + many("2026-02-01,C%03d,web,sale,99,1,\n", 201)}},
		{words: "the rest is in no line here",
			must: [2]string{equipment("2025-03-01,saw,100,,5,2026-04-01,30\n"),
				equipment("2025-03-01,saw,100,,5,2026-04-01,30\n") +
					remarkIncome + "2026-04-01,saw,tool sold,20\n"},
			mustNot: [2]string{equipment("2025-03-01,saw,100,,5,2026-04-01,30\n") + remarkIncome +
				"2026-04-01,saw,tool sold,30\n",
				equipment("2025-03-01,saw,100,,5,,\n")}},
		{words: "Other income has",
			must: [2]string{remarkIncome + "2026-03-01,sander,tool sold,30\n",
				equipment("2025-03-01,saw,100,,5,2026-04-01,20\n") +
					remarkIncome + "2026-04-01,saw,tool sold,30\n"},
			mustNot: [2]string{equipment("2025-03-01,saw,100,,5,2026-04-01,30\n") + remarkIncome +
				"2026-04-01,saw,tool sold,30\n",
				remarkIncome + "2026-03-01,paint,rebate,30\n"}},
	})
}

// Use of the home by the simplified method: 5 a square foot of at most 300
// (Rev. Proc. 2013-13), within the profit before it; none in a loss.
func TestUseOfTheHome(t *testing.T) {
	for _, c := range []struct{ home, price, want, share string }{
		{"shop_area = 240\nhome_area = 1600", "5000", "1200.00", "15.00"},
		{"shop_area = 400\nhome_area = 1600", "5000", "1500.00", "25.00"},
		{"shop_area = 240", "1000", "900.00", ""},              // 1,000 less 100 for the piece
		{"shop_area = 240\nseparate = true", "50", "0.00", ""}, // a loss
	} {
		books := "\nsettings\n[home]\n" + c.home + "\n" + remarkPieces + remarkSale + "2026-02-01,A,booth,sale," +
			c.price + ",,\n"
		y := year(t, bookgen.InWords(books), 2026)
		assert.Equal(t, c.want, y.Home.Simplified.String(), c.home)
		if c.share != "" {
			assert.Equal(t, c.share, y.Home.Share.FloatString(2))
		} else {
			assert.Nil(t, y.Home.Share)
		}
		words := strings.Join(remarked(y), "\n")
		assert.Contains(t, words, "Line 30, use of the home, is not in these lines")
		assert.NotContains(t, words, "Whether the shop is in the owner's home")
	}
	y := year(t, bookgen.InWords(remarkPieces), 2026)
	assert.Nil(t, y.Home)
	assert.Contains(t, strings.Join(remarked(y), "\n"), "Whether the shop is in the owner's home")
}

// Goal: a changed tax_supplies is reported as a change of method, with what falls
// out of or is counted in both years, and never as changed records; changed
// records are reported as such beside it. Method: a piece in stock at New Year with
// 20.00 of stripper on it, half of another can of 30.00 on the shelf.
func TestChangeOfMethod(t *testing.T) {
	books := `
settings
tax_supplies = "%s"

pieces
piece,kind,got_on,price,area
A,dresser,2025-11-01,100,20

supplies
supply,group,container,coverage
Stripper,stripper,1 qt,20
Rags,abrasive,1 pad,all

purchases
bought_on,supply,containers,cost
2025-11-02,Stripper,1,20
2025-11-03,Stripper,1,30

uses
used_on,pieces,supply
2025-12-10,A,Stripper

trips
on,miles,purpose
2026-01-05,1,post
`
	handed := func(treatment string) taxyear.HandedOut {
		y := year(t, bookgen.InWords(fmt.Sprintf(books, treatment)), 2025)
		st := y.Figures.Statement
		return taxyear.HandedOut{From: "reports/2025", Closing: y.Amount("41"), Cost: y.Amount("42"),
			Statement: st.CostOfPiecesSold + st.ShelfLosses + st.PiecesLost,
			Used:      y.UsedOf(map[string]money.Cents{"22": y.Amount("22")}, st.Expenses)}
	}
	for now, was := range map[string]string{"with the piece": "when used", "when used": "with the piece"} {
		y := year(t, bookgen.InWords(fmt.Sprintf(books, now)), 2026)
		method, changed := y.Opened(handed(was))
		assert.Empty(t, changed, now)
		if assert.Len(t, method, 1, now) {
			assert.Equal(t, "20.00", method[0].Cents.String())
			assert.Contains(t, words.YearNote(method[0].Note), "opens 50.00 apart")
			assert.Contains(t, words.YearNote(method[0].Note), map[string]string{"when used": "counted in neither year",
				"with the piece": "counted in both years"}[now])
			assert.NotContains(t, words.YearNote(method[0].Note), "changed since")
		}
		method, changed = y.Opened(handed(now))
		assert.Empty(t, slices.Concat(method, changed), "the same treatment")
		apart := handed(was)
		apart.Closing += 700
		apart.Cost, apart.Statement = apart.Cost-700, apart.Statement-700
		method, changed = y.Opened(apart)
		assert.Len(t, method, 1)
		if assert.Len(t, changed, 1) {
			assert.Equal(t, "-7.00", changed[0].Cents.String())
		}
	}
}
