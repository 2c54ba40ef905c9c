package intake_test

import (
	"maps"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
)

// shop is books with a lot, a set, a piece whose name holds a separator, and
// a schedule.
var shop = map[string]string{
	"records/lots.csv": "lot,got_on,price\nL1,2026-01-02,90\n",
	"records/pieces.csv": "piece,kind,got_on,price,lot,set,area\nP1,chair,2026-01-05,40,,Four,12\nP2,chair,2026-01-05,40,,four,12\n" +
		"P3,stool,,,l1,,8\nP4,stool,,,L1,,8\n\"Table, oak\",table,2026-01-05,60,,,33\n",
	"records/supplies.csv":  "supply,group,container,coverage\nPrimer,primer,1 qt,100\nPaper,abrasive,50 sheets,400\n",
	"records/schedules.csv": "schedule,supply,coats\nPaint it,paper,\nPaint it,Primer,2\n",
}

// with is shop with more files.
func with(files map[string]string) map[string]string {
	all := maps.Clone(shop)
	maps.Copy(all, files)
	return all
}

func TestListsStandForTheirPieces(t *testing.T) {
	for cell, want := range map[string]string{"p1": "P1", "P2;P1": "P1 P2", "\"P1, P2\"": "P1 P2", "P1+P2": "P1 P2",
		"FOUR": "P1 P2",
		"L1":   "P3 P4", "l1; Four": "P1 P2 P3 P4", "P3; L1": "P3 P4", "\"table, OAK\"": "Table, oak", " P1 ; ": "P1"} {
		res := read(t, with(file("hours.csv", "worked_on,hours,pieces\n2026-01-09,1,"+cell+"\n")))
		noErrors(t, res)
		require.Len(t, res.Books.Hours, 1, cell)
		require.Equal(t, want, strings.Join(res.Books.Hours[0].Pieces, " "), cell)
	}
	// Split, the piece whose name holds a comma is no longer one.
	res := read(t, with(file("hours.csv", "worked_on,hours,pieces\n2026-01-09,1,\"P1; Table, "+
		"oak\"\n2026-01-09,1,;\n2026-01-09,1,\n")))
	require.Len(t, res.Books.Hours, 1, "blank is the shop")
	require.Empty(t, res.Books.Hours[0].Pieces)
	codes := []fault.Code{}
	for _, p := range res.Problems.Errors() {
		codes = append(codes, p.Code)
	}
	require.Equal(t, []fault.Code{fault.CodePieceUnknown, fault.CodePieceUnknown, fault.CodeCellMissing}, codes)
}

func TestSchedulesStandForTheirLines(t *testing.T) {
	res := read(t, with(file("uses.csv", usesHead+"2026-01-09,P1,,PAINT IT,,1.5,\n2026-01-10,P1,Primer,,,,1/2 pt\n")))
	noErrors(t, res)
	var got []string
	for _, u := range res.Books.Uses {
		got = append(got, u.Supply+" "+u.Coats.RatString()+" "+u.Schedule)
	}
	require.Equal(t, []string{"Paper 3/2 Paint it", "Primer 3 Paint it", "Primer 1 "}, got)
	require.Equal(t, "1/4", res.Books.Uses[2].Amount.RatString())
	require.Nil(t, res.Books.Uses[0].Amount)
}

// A use of a schedule must not lose the line that was refused.
func TestScheduleWithRefusedLineIsRefused(t *testing.T) {
	res := read(t, with(map[string]string{"records/schedules.csv": "schedule,supply\nPaint it,Paper\nPaint it,Varnish\n",
		"records/uses.csv": usesHead + "2026-01-09,P1,,Paint it,,,\n"}))
	require.Empty(t, res.Books.Uses)
	require.Len(t, res.Problems.Errors(), 2)
}

// A refused piece refuses what depends on it, and not the others of its lot.
func TestRefusedPieceOfALot(t *testing.T) {
	res := read(t, with(map[string]string{
		"records/pieces.csv": "piece,kind,got_on,price,lot,area\nP1,chair,2026-01-05,40,,12\nP3,stool,,,L1,wide\nP4,stool,,,L1,8\n",
		"records/hours.csv":  "worked_on,hours,pieces\n2026-01-09,1,L1\n2026-01-09,1,P4\n2026-01-09,1,P1\n"}))
	require.Len(t, res.Books.Pieces, 2)
	require.Len(t, res.Books.Hours, 2, "the line for the whole lot is refused")
	require.Len(t, res.Problems.Errors(), 2)
	require.Equal(t, "2026-01-02", res.Books.Pieces[1].GotOn.String(), "the lot's day")
	require.Equal(t, "L1", res.Books.Pieces[1].Lot)
}

func TestPiecesRowCarriesItsSaleAndHours(t *testing.T) {
	res := read(t, pieces(
		"piece,kind,got_on,price,area,finished_on,sold_on,sold_price,fee,sales_tax,delivery_charged,hours",
		"P1,chair,2026-01-05,40,9,2026-01-20,2026-02-01,120,0,8.40,15,30\nP2,chair,2026-01-05,40,9,,2026-02-03,120,,,,2h "+
			"30m\nP3,chair,2026-01-05,40,9,,,,,,,1"))
	noErrors(t, res)
	b := res.Books
	require.Len(t, b.Sales, 2)
	require.Equal(t, money.Cents(0), *b.Sales[0].Fee, "a typed 0 is a fee")
	require.Nil(t, b.Sales[1].Fee)
	require.Equal(t, ledger.SaleLine, b.Sales[0].Type)
	require.Equal(t, []string{"2026-01-20 30", "2026-02-03 5/2", "2026-01-05 1"}, []string{
		b.Hours[0].On.String() + " " + b.Hours[0].Hours.RatString(), b.Hours[1].On.String() + " " +
			b.Hours[1].Hours.RatString(),
		b.Hours[2].On.String() + " " + b.Hours[2].Hours.RatString()})
	require.True(t, b.Pieces[0].SoldOnOwnRow)
	require.False(t, b.Pieces[2].SoldOnOwnRow)
}

// Goal: the columns that no other test fills are read into their fields.
func TestColumnsOfTheirOwn(t *testing.T) {
	res := read(t, map[string]string{
		"records/supplies.csv":  "supply,group,container\nPrimer,primer,1 qt\n",
		"records/schedules.csv": "schedule,supply\nPaint it,Primer\n",
		"records/pieces.csv":    "piece,kind,got_on,price,schedule,condition\nP1,dresser,2026-01-05,40,paint IT,rough\n",
		"records/expenses.csv":  "paid_on,what,group,amount,to\n2026-01-05,ad,advertising,40,The paper\n",
		"records/equipment.csv": "bought_on,what,cost,life,sold_on,sold_for\n2026-01-05,lathe,3000,first year,2026-02-06,1200.50\n",
	})
	require.Empty(t, res.Problems.Errors())
	p, e, tool := res.Books.Pieces[0], res.Books.Expenses[0], res.Books.Equipment[0]
	require.Equal(t, []string{"Paint it", "rough", "The paper"}, []string{p.Schedule, p.Condition, e.To})
	require.Equal(t, ledger.LifeFirstYear, tool.Life)
	require.Equal(t, "2026-02-06", tool.SoldOn.String())
	require.Equal(t, money.Cents(120050), tool.SoldFor)
}

// Goal: starting coverages are those of COSTING.md, converted exactly. Method:
// its own example (stripper, 1 qt: 20.8 sq ft) and one of each kind.
func TestStartingCoverages(t *testing.T) {
	const rows = "supply,group,container,share_by\nA,stripper,1 qt,\nB,paint,12 oz,\nC,abrasive,50 " +
		"sheets,bench\nD,abrasive,1 roll,\n" +
		"E,applicator,12 each,pieces\nF,applicator,3 rolls,hours\nG,glue,8 fl oz,hours\nH,other,1 qt,\nI,wax,1 " +
		"lb,\nJ,solvent,1 gal,\n"
	for _, c := range []struct {
		units string
		want  map[string]string
	}{
		{"us", map[string]string{"A": "20.8", "B": "16.8", "C": "400", "D": "", "E": "36", "F": "30", "G": "", "H": "", "I": "156", "J": "512"}},
		{"metric", map[string]string{"A": "1.932383232", "B": "1.560771072", "C": "37.161216", "D": "", "E": "36", "F": "30", "G": "", "H": "", "I": "14.49287424", "J": "47.56635648"}},
	} {
		res := read(t, map[string]string{"settings.toml": "units = \"" + c.units + "\"", "records/supplies.csv": rows})
		for _, s := range res.Books.Supplies {
			if c.want[s.Name] == "" {
				require.Nil(t, s.Starting, s.Name)
				continue
			}
			want, _ := new(big.Rat).SetString(c.want[s.Name])
			require.NotNil(t, s.Starting, s.Name)
			require.Zero(t, want.Cmp(s.Starting), "%s %s: %s", c.units, s.Name, s.Starting.FloatString(12))
		}
	}
}

func TestPurchasesOfAnotherSize(t *testing.T) {
	res := read(t, file("purchases.csv",
		"bought_on,supply,containers,container,cost,tax_paid\n2026-01-09,Primer,2,1 gal,80,4\n"+
			"2026-01-09,Primer,-1,1 pt,-8,-0.40\n2026-01-09,Paper,1,20 sheets,9,\n2026-01-09,Paper,1,1 "+
			"qt,9,\n2026-01-09,Paper,0,,9,\n"))
	require.Len(t, res.Problems.Errors(), 2)
	var got []string
	for _, p := range res.Books.Purchases {
		got = append(got, p.Amount.RatString()+" "+p.Total().String())
	}
	require.Equal(t, []string{"8 84.00", "-1/2 -8.40", "2/5 9.00"}, got)
}

func TestAreasOfPieces(t *testing.T) {
	files := map[string]string{
		"records/pieces.csv":   "piece,kind,got_on,price,area\nP1,Dresser ,2026-01-05,4,\nP2,dresser,2026-01-05,4,\nP3,dresser,2026-01-05,4,7 1/2\nP4,pulpit,2026-01-05,4,\n",
		"records/surfaces.csv": "piece,part,shape,width,height,count\nP2,top,rectangle,36,18,\nP2,side,rectangle,12,24,2\nP3,top,disc,18,,\n",
	}
	areas := func(units string) []string {
		res := read(t, map[string]string{"settings.toml": "units = \"" + units + "\"",
			"records/pieces.csv": files["records/pieces.csv"], "records/surfaces.csv": files["records/surfaces.csv"]})
		var out []string
		for _, p := range res.Books.Pieces {
			if p.Area == nil {
				out = append(out, string(p.AreaFrom)+"none")
				continue
			}
			out = append(out, string(p.AreaFrom)+" "+p.Area.FloatString(4))
		}
		return out
	}
	require.Equal(t, []string{"typical 30.0000", "surfaces 8.5000", "typed 7.5000", "none"}, areas("us"))
	// 30 × 0.09290304 = 2.7870912; 1224 sq cm = 0.1224 sq m.
	require.Equal(t, []string{"typical 2.7900", "surfaces 0.1200", "typed 7.5000", "none"}, areas("metric"))
}

// All problems of one row are reported, not only the first.
func TestAllProblemsOfARow(t *testing.T) {
	res := read(t, file("uses.csv", usesHead+"yesterday,P9; P8,Primmer,Paint,big,-1,some\n"))
	columns := map[string]int{}
	for _, p := range res.Problems.Errors() {
		columns[p.Place.Column]++
	}
	require.Equal(t, map[string]int{"used_on": 1, "pieces": 2, "supply": 1, "schedule": 1, "area": 1, "coats": 1, "": 1},
		columns)
	require.Equal(t, 1, res.Tally[2].Refused)
}

// Column, row and file order never change what is read.
func TestOrderNeverMatters(t *testing.T) {
	one := read(t, map[string]string{
		"records/pieces.csv": "piece,kind,got_on,price,area,set\nP1,chair,2026-01-05,40,12,A " +
			"set\nP2,chair,2026-01-05,50,12,a set\n"})
	two := read(t, map[string]string{"records/pieces.csv": "", "records/z pieces.csv": "",
		"records/b/pieces.csv": "price,set,area,kind,got_on,piece\n50,a set,12,chair,2026-01-05,P2\n",
		"records/c/pieces.csv": "piece,kind,got_on,price,area,set\nP1,chair,2026-01-05,40,12,A set\n"})
	noErrors(t, one)
	noErrors(t, two)
	byName := func(res *intake.Result) map[string]string {
		out := map[string]string{}
		for _, p := range res.Books.Pieces {
			out[p.ID] = p.Kind + p.Price.String() + p.Area.String() + p.Set + p.GotOn.String()
		}
		return out
	}
	require.Equal(t, byName(one), byName(two))
}

func TestDates(t *testing.T) {
	for text, want := range map[string]string{"2026-03-09": "2026-03-09", "3/9/2026": "2026-03-09", "3/9/26": "2026-03-09",
		"03.09.2026": "2026-03-09",
		"9 Mar 2026": "2026-03-09", "\"Mar 9, 2026\"": "2026-03-09", "March 9 2026": "2026-03-09", "9-Mar-26": "2026-03-09", "2026-03-09 00:00:00": "2026-03-09",
		"29 Feb 2024": "2024-02-29"} {
		res := read(t, file("hours.csv", "worked_on,hours\n"+text+",1\n"))
		noErrors(t, res)
		require.Equal(t, want, res.Books.Hours[0].On.String(), text)
	}
	res := read(t, map[string]string{"settings.toml": "dates = \"dmy\"",
		"records/hours.csv": "worked_on,hours\n3/9/2026,1\n3.9.26,1\n2026-03-09,1\n"})
	noErrors(t, res)
	require.Equal(t, []string{"2026-09-03", "2026-09-03", "2026-03-09"}, []string{res.Books.Hours[0].On.String(),
		res.Books.Hours[1].On.String(), res.Books.Hours[2].On.String()})
	for _, text := range []string{"46024", "2/29/2025", "0/1/2026", "9 Foo 2026", "2026-3", "2026-00-10", "Mar 2026"} {
		require.True(t, read(t, file("hours.csv", "worked_on,hours\n"+text+",1\n")).Problems.HasErrors(), text)
	}
}
