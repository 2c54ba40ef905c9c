package intake_test

import (
	"bytes"
	"encoding/csv"
	"flag"
	"maps"
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

// struckTables are tables parts of which are struck out, and of each the columns
// of money that it can do without, but for the price of pieces. No
// other table names their rows, but for Pieces.
var struckTables = map[string][]string{"pieces": {"price", "tax_paid", "pickup"},
	"sales": {"fee", "card_fee", "delivery_cost"},
	"parts": {"tax_paid"}, "expenses": {}, "trips": {"tolls"}, "equipment": {"tax_paid"}, "other income": {},
	"purchases": {"tax_paid"}}

// Goal: what check says of the money in the files is true: of books of which a
// column, a row or a sheet is struck out, all that is in it is in no figure, nor
// what names a piece that is struck out, and all else is read. Method: generated
// books.
func TestMoneyReadIsTrue(t *testing.T) {
	set, err := loaded()
	require.NoError(t, err)
	for seed := range uint64(*struckBooks) {
		files := bookgen.Files(seed)
		whole := moneyOf(files, set)
		require.Zero(t, whole.Unread, "book %d: %v", seed, whole.In)
		require.NotZero(t, whole.Read)
		r := rand.New(rand.NewPCG(seed, 7))
		for _, table := range slices.Sorted(maps.Keys(struckTables)) {
			name := "records/" + table + ".csv"
			rows := rowsOf(t, files[name])
			if len(rows) < 3 {
				continue
			}
			out := copied(files)
			var struck money.Cents
			var pieces []string // that are struck out
			day := max(0, slices.Index(rows[0], "got_on"))
			switch what := r.IntN(3); {
			case what == 0 && len(struckTables[table]) > 0:
				column := slices.Index(rows[0], struckTables[table][r.IntN(len(struckTables[table]))])
				require.GreaterOrEqual(t, column, 0)
				if rows[0][column] == "price" {
					pieces = bought(rows)
				}
				struck = sumOf(t, set, table, rows, func(i, c int) bool {
					return c == column || slices.Contains(pieces, rows[i][0])
				})
				rows[0][column] = "zz own"
			case what == 1:
				row := 1 + r.IntN(len(rows)-1)
				struck = sumOf(t, set, table, rows, func(i, _ int) bool { return i == row })
				rows[row][day], pieces = "some day", []string{rows[row][0]}
			default:
				struck = sumOf(t, set, table, rows, func(int, int) bool { return true })
				for _, row := range rows[1:] {
					pieces = append(pieces, row[0])
				}
				delete(out, name)
				name = "records/zz own.csv"
			}
			if table == "pieces" {
				struck += sumNaming(t, set, files, pieces)
			}
			var b bytes.Buffer
			require.NoError(t, csv.NewWriter(&b).WriteAll(rows))
			out[name] = b.Bytes()
			m := moneyOf(out, set)
			require.Equal(t, whole.Read, m.Of(), "book %d, %s", seed, table)
			require.Equal(t, struck, m.Unread, "book %d, %s: %v, %v", seed, table, pieces, m.In)
		}
	}
}

// bought are the pieces that need a price, those that were taken in trade too.
func bought(rows [][]string) (pieces []string) {
	how, price := slices.Index(rows[0], "how"), slices.Index(rows[0], "price")
	for _, row := range rows[1:] {
		if row[price] != "" && slices.Contains([]string{"", "bought", "traded"}, row[how]) {
			pieces = append(pieces, row[0])
		}
	}
	return pieces
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

// onlySaid are columns of money that changed no hands.
var onlySaid = []string{"asking", "worth", "value", "gross"}

// sumNaming is the money in the rows of other tables that name one of some pieces,
// or its set or lot, and in lots none of whose pieces are left.
func sumNaming(t *testing.T, set *templates.Set, files map[string][]byte, pieces []string) (sum money.Cents) {
	rows := rowsOf(t, files["records/pieces.csv"])
	left, names := map[string]bool{}, slices.Clone(pieces)
	for _, row := range rows[1:] {
		lot := row[slices.Index(rows[0], "lot")]
		if !slices.Contains(pieces, row[0]) {
			left[lot] = true
			continue
		}
		for _, name := range []string{lot, row[slices.Index(rows[0], "set")]} {
			if name != "" {
				names = append(names, name)
			}
		}
	}
	for _, table := range set.Tables {
		rows := rowsOf(t, files["records/"+table.Name+".csv"])
		if len(rows) == 0 || table.Name == "pieces" {
			continue
		}
		sum += sumOf(t, set, table.Name, rows, func(i, _ int) bool {
			return table.Name == "lots" && !left[rows[i][0]] || slices.ContainsFunc(rows[0], func(column string) bool {
				return (column == "piece" || column == "pieces") && slices.ContainsFunc(names, func(name string) bool {
					return strings.Contains(rows[i][slices.Index(rows[0], column)], name)
				})
			})
		})
	}
	return sum
}

func rowsOf(t *testing.T, b []byte) [][]string {
	rows, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
	require.NoError(t, err)
	return rows
}

// sumOf is the money that changed hands, signs apart, in some cells of a table.
func sumOf(t *testing.T, set *templates.Set, table string, rows [][]string, is func(row, column int) bool) (
	sum money.Cents) {
	for i, row := range rows[1:] {
		for c, text := range row {
			f := set.Table(table).Field(rows[0][c])
			if text == "" || !strings.Contains(string(f.Cell), "money") || slices.Contains(onlySaid, f.Name) || !is(i+1, c) {
				continue
			}
			x, refusal := measure.Money(text, measure.Style{})
			require.Nil(t, refusal, text)
			sum += x.Abs()
		}
	}
	return sum
}
