package bookgen

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
)

// sheet is one file or sheet of a table: a header and its rows.
type sheet struct {
	table  string
	name   string // as its file or sheet is named, without folder and ending
	header []string
	rows   [][]string
}

// reshaper writes the same records in another form.
type reshaper struct {
	*maker
	out map[string][]byte
}

// Reshape is the same records as Files made, written another way: a table in
// several files and folders or in a workbook's sheets, rows and columns in
// another order, other headers, other ways of writing dates, money, numbers
// and hours, other delimiters and line ends, blank and example rows. What is
// not a CSV file of a table under records/ stays as it is. No figure may
// differ.
func Reshape(files map[string][]byte, seed uint64) map[string][]byte {
	r := &reshaper{maker: &maker{Rand: rand.New(rand.NewPCG(seed, 0xd1b54a32d192ed03))}, out: map[string][]byte{}}
	var book []sheet
	for _, path := range slices.Sorted(maps.Keys(files)) {
		table, isTable := strings.CutPrefix(strings.TrimSuffix(path, ".csv"), "records/")
		if !isTable || tables.Table(table) == nil {
			r.out[path] = files[path]
			continue
		}
		inBook := r.chance(30)
		for i, s := range r.split(table, files[path]) {
			s.name = r.name(table, i)
			if inBook {
				book = append(book, s)
				continue
			}
			r.rewrite(&s)
			r.out["records/"+r.folder(i)+s.name+".csv"] = r.text(s)
		}
	}
	if len(book) > 0 {
		r.out["records/"+r.pick("Shop book", "books/2026", "everything")+".xlsx"] = r.workbook(book)
	}
	return r.out
}

// split reads a table and deals its rows over one to three sheets, each with
// its columns in an order of its own.
func (r *reshaper) split(table string, text []byte) []sheet {
	lines, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil || len(lines) == 0 {
		panic(fmt.Sprintf("bookgen: %s is not a table Files made: %v", table, err))
	}
	header, rows := lines[0], lines[1:]
	r.Shuffle(len(rows), func(i, j int) { rows[i], rows[j] = rows[j], rows[i] })
	n := min(r.pickInt(1, 1, 2, 3), max(1, len(rows)))
	out := make([]sheet, n)
	for i := range out {
		from, to := i*len(rows)/n, (i+1)*len(rows)/n
		out[i] = r.reorder(sheet{table: table, header: header, rows: rows[from:to]})
	}
	return out
}

// spare are columns that may be left out where nothing is in them.
var spare = []string{"receipt", "from", "description", "made", "old_finish", "task", "to", "tolls", "caution",
	"tax_paid", "marketplace_tax", "stays", "relief", "sides"}

// reorder puts the columns in another order, and leaves out spare ones that
// are blank.
func (r *reshaper) reorder(s sheet) sheet {
	out := sheet{table: s.table, rows: make([][]string, len(s.rows))}
	for _, c := range r.Perm(len(s.header)) {
		blank := !slices.ContainsFunc(s.rows, func(row []string) bool { return row[c] != "" })
		if blank && slices.Contains(spare, s.header[c]) && r.chance(60) {
			continue
		}
		out.header = append(out.header, s.header[c])
		for i, row := range s.rows {
			out.rows[i] = append(out.rows[i], row[c])
		}
	}
	return out
}

// name is one of the names a table is known by; sheets of one table differ by
// the number at the end.
func (r *reshaper) name(table string, i int) string {
	words := table
	switch r.IntN(4) {
	case 0:
		words = strings.ToUpper(table)
	case 1:
		words = strings.ToUpper(table[:1]) + table[1:]
	case 2:
		words = strings.ReplaceAll(table, " ", r.pick("_", "-", ""))
	}
	if i == 0 {
		return words + r.pick("", "", " 2026", "-2026")
	}
	return words + fmt.Sprintf(r.pick(" 2026-%02d", "-%d", " (%d)", "_202%d"), i+1)
}

// folder is a folder below records; each sheet of a table has its own choice.
func (r *reshaper) folder(i int) string {
	if r.chance(70) {
		return ""
	}
	return fmt.Sprintf("%s %d/", r.pick("year", "old"), i)
}

// otherNames are headers the contract names as known.
var otherNames = map[string][]string{
	"pieces/got_on":       {"Date bought", "purchase date"},
	"lots/got_on":         {"date bought", "Purchase Date"},
	"purchases/bought_on": {"purchase date", "Date bought"},
	"uses/pieces":         {"piece"},
	"parts/pieces":        {"Piece"},
	"hours/pieces":        {"PIECE"},
	"trips/pieces":        {"piece"},
	"sales/pieces":        {"Piece"},
}

// header is a column's name in one of its ways.
func (r *reshaper) header(table, column string) string {
	if other := otherNames[table+"/"+column]; other != nil && r.chance(50) {
		return other[r.IntN(len(other))]
	}
	switch r.IntN(5) {
	case 0:
		return strings.ToUpper(column)
	case 1:
		return strings.ToUpper(column[:1]) + strings.ReplaceAll(column[1:], "_", " ")
	case 2:
		return strings.ReplaceAll(column, "_", r.pick(" ", "-", ""))
	case 3:
		return " " + column + " "
	}
	return column
}

// rewrite writes every cell another way, renames the headers, and puts in rows
// that are skipped.
func (r *reshaper) rewrite(s *sheet) {
	for _, row := range s.rows {
		for c := range row {
			row[c] = r.cell(s.table, s.header[c], row[c])
		}
	}
	r.pad(s)
}

// pad renames the headers and puts in rows that reading skips.
func (r *reshaper) pad(s *sheet) {
	for c, column := range s.header {
		s.header[c] = r.header(s.table, column)
	}
	if r.chance(30) {
		example := make([]string, len(s.header))
		example[0] = r.pick("example: like this", "Example: a line")
		s.rows = slices.Insert(s.rows, 0, example)
	}
	if r.chance(30) {
		s.rows = slices.Insert(s.rows, r.IntN(len(s.rows)+1), make([]string, len(s.header)))
	}
}

// text writes a sheet as a text file: its own delimiter, line end and mark.
func (r *reshaper) text(s sheet) []byte {
	var b bytes.Buffer
	if r.chance(30) {
		b.WriteString("\uFEFF")
	}
	w := csv.NewWriter(&b)
	w.Comma = []rune{',', ',', ';', '\t'}[r.IntN(4)]
	w.UseCRLF = r.chance(40)
	if err := w.WriteAll(append([][]string{s.header}, s.rows...)); err != nil {
		panic("bookgen: a buffer cannot fail: " + err.Error())
	}
	return b.Bytes()
}
