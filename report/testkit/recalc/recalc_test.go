package recalc_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/report/testkit/recalc"
	"piecebook/report/workbook"
)

// lines is a sheet of three lines: 1.00 of 1, 2.50 of 2, -0.25 of 1.
func lines(b *workbook.Book) *workbook.Sheet {
	s := b.Add("The lines", "Lines", workbook.Column{Head: "No."}, workbook.Column{Head: "What"},
		workbook.Column{Head: "Amount"})
	for _, r := range []struct {
		no    int
		what  string
		cents int64
	}{{1, "a", 100}, {2, "b", 250}, {1, "A", -25}} {
		s.Row(workbook.Normal, workbook.Whole(r.no), workbook.Text(r.what), workbook.Money(r.cents))
	}
	return s
}

// Formulas whose results can be seen at a glance; ROUND goes half away from
// zero (ECMA-376 part 1, 18.17.7.279).
func TestFormulas(t *testing.T) {
	for formula, want := range map[string]*big.Rat{
		"1+2*3-4/2":                    big.NewRat(5, 1),
		"-(1+2)*2":                     big.NewRat(-6, 1),
		"SUM('The lines'!$C$4:$C$6)":   big.NewRat(325, 100),
		"SUM('The lines'!$B$4:$C$4,1)": nil,
		"SUM('The lines'!$C$4,1)":      big.NewRat(2, 1),
		"ROUND(2.345,2)":               big.NewRat(235, 100),
		"ROUND(-2.345,2)":              big.NewRat(-235, 100),
		"ROUND(ABS(-2.344),2)":         big.NewRat(234, 100),
		"IF(1<2,3,4)":                  big.NewRat(3, 1),
		"IF(\"a\"=\"A\",3,4)":          big.NewRat(3, 1),
		"1/0":                          nil,
		"1/'No such'!A1":               nil,
		"AVERAGE(1,2)":                 nil,
		"A4":                           nil, // itself
		"SUMIFS('The lines'!$C$4:$C$6,'The lines'!$A$4:$A$6,1)":                                    big.NewRat(75, 100),
		"SUMIFS('The lines'!$C$4:$C$6,'The lines'!$B$4:$B$6,\"a\")":                                big.NewRat(75, 100),
		"SUMIFS('The lines'!$C$4:$C$6,'The lines'!$B$4:$B$6,\"a*\")":                               nil, // a wildcard
		"SUMIFS('The lines'!$C$4:$C$6,'The lines'!$B$4:$B$6,\"12\")":                               nil, // a number to some
		"SUMIFS('The lines'!$C$4:$C$6,'The lines'!$B$4:$B$6,\"a\",'The lines'!$C$4:$C$6,\">=\"&0)": big.NewRat(1, 1),
		"SUMIFS('The lines'!$C$4:$C$6,'The lines'!$B$4:$B$6,\"a\",'The lines'!$C$4:$C$6,\"<\"&0)":  big.NewRat(-25, 100),
	} {
		b := &workbook.Book{}
		s := b.Add("Sums", "Sums", workbook.Column{Head: "Sum"})
		lines(b)
		stands := want
		if want == nil {
			stands = new(big.Rat)
		}
		s.Row(workbook.Normal, workbook.Number(stands, 2).By(formula))
		wrong, n := recalc.Check(b)
		require.Equal(t, 1, n)
		if want == nil {
			assert.Len(t, wrong, 1, formula)
		} else {
			assert.Empty(t, wrong, formula)
		}
	}
}

// A result that is a hundredth off is reported.
func TestWrongResult(t *testing.T) {
	b := &workbook.Book{}
	s := b.Add("Sums", "Sums", workbook.Column{Head: "Sum"})
	data := lines(b)
	s.Row(workbook.Normal, workbook.Money(326).By("SUM("+data.All("Amount")+")"))
	wrong, _ := recalc.Check(b)
	require.Equal(t, []string{"Sums!A4 =SUM('The lines'!$C$4:$C$6): works out as 3.25, but 3.26 stands there"}, wrong)
}
