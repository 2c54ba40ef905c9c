package workbook_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/report/workbook"
)

// The letters of columns, as spreadsheets count them.
func TestLetter(t *testing.T) {
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA",
		16383: "XFD"} {
		assert.Equal(t, want, workbook.Letter(i))
	}
}

// Names of sheets are at most 31 characters, without what a sheet's name must
// not hold, and each once without regard to case.
func TestSheetNames(t *testing.T) {
	b := &workbook.Book{}
	for _, c := range []struct{ name, want string }{
		{"Sales", "Sales"}, {"SALES", "SALES 2"}, {"sales", "sales 3"}, {"a/b:c?*[d]'", "abcd"},
		{strings.Repeat("x", 40), strings.Repeat("x", 31)}, {strings.Repeat("x", 40), strings.Repeat("x", 29) + " 2"},
	} {
		assert.Equal(t, c.want, b.Add(c.name, "").Name)
	}
}

// References name their sheet as formulas need it.
func TestReferences(t *testing.T) {
	b := &workbook.Book{}
	for name, want := range map[string]string{"Stock": "Stock", "In stock": "'In stock'", "AB12": "'AB12'",
		"Łódź": "'Łódź'"} {
		s := b.Add(name, name, workbook.Column{Head: "What"}, workbook.Column{Head: "Amount"})
		s.Note("One note.")
		assert.Equal(t, want+"!$B$5:$B$5", s.All("Amount"), "no rows yet")
		s.Row(workbook.Normal)
		row := s.Row(workbook.Normal)
		assert.Equal(t, 6, row)
		assert.Equal(t, want+"!$B$6", s.Cell("Amount", row))
		assert.Equal(t, want+"!$B$5:$B$6", s.All("Amount"))
		assert.Equal(t, "B6", s.Here("Amount", row))
	}
	assert.Panics(t, func() { b.Sheet("stock").Here("No such", 1) })
	assert.Panics(t, func() { b.Sheet("Stock").Note("too late") })
}

// Rows that follow each other are summed as one range; a function takes 255
// arguments at most.
func TestSum(t *testing.T) {
	b := &workbook.Book{}
	s := b.Add("S", "S", workbook.Column{Head: "X"})
	assert.Equal(t, "0", s.Sum("X", nil))
	assert.Equal(t, "S!$A$4", s.Sum("X", []int{4}))
	assert.Equal(t, "SUM(S!$A$4:$A$6,S!$A$9)", s.Sum("X", []int{4, 5, 6, 9}))
	var odd []int
	for i := range 500 {
		odd = append(odd, 2*i+1)
	}
	for _, part := range strings.Split(s.Sum("X", odd), "+") {
		assert.LessOrEqual(t, strings.Count(part, ",")+1, 255)
	}
}

// Long notes take several lines, none longer than the columns are wide.
func TestNotesBreak(t *testing.T) {
	b := &workbook.Book{}
	s := b.Add("S", "S", workbook.Column{Head: "X", Width: 40})
	s.Note(strings.Repeat("word ", 30))
	assert.Greater(t, len(s.Notes), 2)
	for _, n := range s.Notes {
		assert.LessOrEqual(t, len(n), 45, fmt.Sprint(s.Notes))
	}
	assert.Equal(t, len(s.Notes)+3, s.HeadRow())
}
