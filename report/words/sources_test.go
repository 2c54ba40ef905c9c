package words

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger/fault"
)

func TestSources(t *testing.T) {
	row := func(file string, n int) fault.Place { return fault.Place{File: file, Row: n} }
	assert.Equal(t, "", Sources(nil))
	assert.Equal(t, "a.csv:3, 7-9; b.csv:2", Sources([]fault.Place{row("a.csv", 9), row("a.csv", 7), row("a.csv", 8),
		row("b.csv", 2), row("a.csv", 3), row("a.csv", 3).At("area")}))
	var many []fault.Place
	for i := range 20 {
		many = append(many, row("a.csv", 2*i+1))
	}
	assert.Equal(t, "a.csv:1, 3, 5, 7, 9, 11, 13, 15 and 12 rows more", Sources(many))
	assert.NotContains(t, AllSources(many), "more")
}
