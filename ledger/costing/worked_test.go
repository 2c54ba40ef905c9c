package costing_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit"
)

// The contract's own examples, worked by hand (COSTING, 'Worked by hand').

// primerBooks is the can of the worked example, in words.
func primerBooks(t *testing.T) string {
	t.Helper()
	words, err := os.ReadFile(filepath.Join("..", "testdata", "worked-can.txt"))
	require.NoError(t, err)
	return string(words)
}

func TestPrimerWorkedByHand(t *testing.T) {
	l := testkit.Costed(t, primerBooks(t), "2026-05")
	a, b := piece(t, l, "A", "2026-03"), piece(t, l, "B", "2026-03")
	assert.Equal(t, "6.36", share(a, "Primer", "2026-03"))
	assert.Equal(t, "8.08", share(b, "Primer", "2026-03"))
	assert.Equal(t, ledger.Stated, a.Shares[0].Basis)
	march := shelf(t, l, "Primer", "2026-03")
	assert.Equal(t, "20.19", march.Bought.String())
	assert.Equal(t, "14.44", march.Used.String())
	assert.Equal(t, "5.75", march.Closing.String())
	assert.Equal(t, "0.285", money.AtMost(march.Left, 4))

	a, b = piece(t, l, "A", "2026-04"), piece(t, l, "B", "2026-04")
	assert.Equal(t, "-0.65", share(a, "Primer", "2026-04"))
	assert.Equal(t, "-0.84", share(b, "Primer", "2026-04"))
	assert.Equal(t, "7.24", share(piece(t, l, "C", "2026-04"), "Primer", "2026-04"))
	assert.Equal(t, "5.71", a.Supplies.String(), "the leftover cent of the span goes to A")
	assert.Equal(t, ledger.Counted, a.Shares[0].Basis, "the count makes March's share counted")
	april := shelf(t, l, "Primer", "2026-04")
	assert.Equal(t, "111.5", money.AtMost(april.Own, 4), "what the can did, from May on the supply's own coverage")
	assert.Zero(t, april.Closing)
	testkit.Tied(t, l)
}

const stripperBooks = `
pieces
piece,kind,got_on,price,area
chair,dining chair,2026-03-01,10,15
dresser,dresser,2026-03-01,10,8

supplies
supply,group,container
Stripper,stripper,1 qt

purchases
bought_on,supply,containers,cost
2026-03-02,Stripper,1,29.96

uses
used_on,pieces,supply
2026-03-10,chair,Stripper
2026-04-10,dresser,Stripper

counts
counted_on,supply,left
2026-04-30,Stripper,0.55
`

func TestStripperWorkedByHand(t *testing.T) {
	l := testkit.Costed(t, stripperBooks, "2026-04")
	march := shelf(t, l, "Stripper", "2026-03")
	assert.Equal(t, "21.61", march.Used.String())
	assert.Equal(t, ledger.Starting, march.Basis)
	assert.Equal(t, "20.8", money.AtMost(l.Books.Supplies[0].Starting, 4))
	chair := piece(t, l, "chair", "2026-04")
	assert.Equal(t, "-12.82", share(chair, "Stripper", "2026-04"))
	assert.Equal(t, "8.79", chair.Supplies.String())
	assert.Equal(t, "4.69", share(piece(t, l, "dresser", "2026-04"), "Stripper", "2026-04"))
	april := shelf(t, l, "Stripper", "2026-04")
	assert.Equal(t, "16.48", april.Closing.String())
	assert.Equal(t, ledger.Counted, april.Basis)
	testkit.Tied(t, l)
}

func TestLotWorkedByHand(t *testing.T) {
	l := testkit.Costed(t, `
lots
lot,got_on,price
barn,2026-03-01,100

pieces
piece,kind,lot,worth
A,dresser,barn,60
B,chest,barn,50
C,desk,barn,40
`, "2026-03")
	for id, want := range map[string]string{"A": "40.00", "B": "33.33", "C": "26.67"} {
		assert.Equal(t, want, piece(t, l, id, "2026-03").Acquisition.String(), id)
	}
	testkit.Tied(t, l)
}
