package intake_test

import (
	"bytes"
	"encoding/csv"
	"flag"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/intake"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/templates"
)

var struckBooks = flag.Int("struck", 8, "how many generated books have parts struck out")

// leaves are tables that no other table names, and of each the columns of money
// that it can do without.
var leaves = map[string][]string{"sales": {"fee", "card_fee", "delivery_cost"}, "parts": {"tax_paid"},
	"expenses": {}, "trips": {"tolls"}, "equipment": {"tax_paid"}, "other income": {}, "purchases": {"tax_paid"}}

// Goal: what check says of the money in the files is true: of books of which a
// column, a row or a sheet is struck out, all that is in it is in no figure and
// all else is read. Method: generated books.
func TestMoneyReadIsTrue(t *testing.T) {
	set, err := loaded()
	require.NoError(t, err)
	for seed := range uint64(*struckBooks) {
		files := bookgen.Files(seed)
		whole := moneyOf(files, set)
		require.Zero(t, whole.Unread, "book %d: %v", seed, whole.In)
		require.NotZero(t, whole.Read)
		r := rand.New(rand.NewPCG(seed, 7))
		for _, table := range []string{"sales", "parts", "expenses", "trips", "equipment", "other income", "purchases"} {
			name := "records/" + table + ".csv"
			rows, err := csv.NewReader(bytes.NewReader(files[name])).ReadAll()
			if err != nil || len(rows) < 3 {
				continue
			}
			out := copied(files)
			var struck money.Cents
			switch what := r.IntN(3); {
			case what == 0 && len(leaves[table]) > 0:
				column := slices.Index(rows[0], leaves[table][r.IntN(len(leaves[table]))])
				require.GreaterOrEqual(t, column, 0)
				struck = sumOf(t, set, table, rows, func(_, c int) bool { return c == column })
				rows[0][column] = "zz own"
			case what == 1:
				row := 1 + r.IntN(len(rows)-1)
				struck = sumOf(t, set, table, rows, func(i, _ int) bool { return i == row })
				rows[row][0] = "some day"
			default:
				struck = sumOf(t, set, table, rows, func(int, int) bool { return true })
				delete(out, name)
				name = "records/zz own.csv"
			}
			var b bytes.Buffer
			require.NoError(t, csv.NewWriter(&b).WriteAll(rows))
			out[name] = b.Bytes()
			m := moneyOf(out, set)
			require.Equal(t, whole.Read, m.Of(), "book %d, %s", seed, table)
			require.Equal(t, struck, m.Unread, "book %d, %s: %v", seed, table, rows[0])
		}
	}
}

func moneyOf(files map[string][]byte, set *templates.Set) intake.MoneyRead {
	folder := fstest.MapFS{}
	for name, b := range files {
		folder[name] = &fstest.MapFile{Data: b}
	}
	return intake.Read(folder, set).Money
}

func copied(files map[string][]byte) map[string][]byte {
	out := map[string][]byte{}
	for name, b := range files {
		out[name] = b
	}
	return out
}

// sumOf is the money, signs apart, in some cells of a table.
func sumOf(t *testing.T, set *templates.Set, table string, rows [][]string, is func(row, column int) bool) (
	sum money.Cents) {
	for i, row := range rows[1:] {
		for c, text := range row {
			f := set.Table(table).Field(rows[0][c])
			if text == "" || !strings.Contains(string(f.Cell), "money") || !is(i+1, c) {
				continue
			}
			x, refusal := measure.Money(text, measure.Style{})
			require.Nil(t, refusal, text)
			sum += x.Abs()
		}
	}
	return sum
}
