package shapes

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/intake"
	settingsroom "piecebook/ledger/intake/settings"
	"piecebook/ledger/money"
	"piecebook/report/starter"
	"piecebook/templates"
)

// startFiles is a new books folder.
func startFiles(t *testing.T) fstest.MapFS {
	t.Helper()
	files, err := starter.Files(descriptors(t))
	require.NoError(t, err)
	folder := fstest.MapFS{}
	for _, f := range files {
		folder[f.Name] = &fstest.MapFile{Data: f.Bytes}
	}
	return folder
}

func descriptors(t *testing.T) *templates.Set {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	return set
}

// changed is a new books folder whose workbook has been worked on.
func changed(t *testing.T, work func(*excelize.File)) fstest.MapFS {
	t.Helper()
	folder := startFiles(t)
	book, err := excelize.OpenReader(bytes.NewReader(folder[starter.WorkbookName].Data))
	require.NoError(t, err)
	work(book)
	var out bytes.Buffer
	require.NoError(t, book.Write(&out))
	folder[starter.WorkbookName] = &fstest.MapFile{Data: out.Bytes()}
	return folder
}

// A new books folder is read without a word: the example lines of each table,
// none of them used, and the sheets of guidance neither counted nor reported.
func TestStarterUntouched(t *testing.T) {
	set := descriptors(t)
	res := intake.Read(startFiles(t), set)
	require.Empty(t, res.Problems.Errors())
	require.Empty(t, res.Problems.Notes())
	require.Len(t, res.Tally, 22)
	for _, tally := range res.Tally {
		n := len(set.Table(tally.Table).ExampleRows)
		require.Equal(t, intake.TableTally{File: starter.WorkbookName, Sheet: tally.Sheet, Table: tally.Table, Rows: n,
			Examples: n}, tally)
	}
}

// settings.toml of a new folder says the defaults, every key of them, and
// changes nothing.
func TestStarterSettings(t *testing.T) {
	folder := startFiles(t)
	res := intake.Read(folder, descriptors(t))
	require.Equal(t, settingsroom.Default(descriptors(t)), withoutColumns(res))
	text := string(folder[starter.SettingsName].Data)
	for _, key := range settingsroom.Keys() {
		assert.Regexp(t, `(?m)^(\[`+key+`(\.\w+)?\]|(# )?`+key+` = )`, text)
	}
	// Every line has a remark above it.
	assert.NotRegexp(t, `(?m)^[^#\n].*\n[^#\n]`, text, "a key without an explanation")
}

// withoutColumns takes off the empty block for a table's own headers.
func withoutColumns(res *intake.Result) any {
	s := res.Books.Settings
	for table, headers := range s.Columns {
		if len(headers) == 0 {
			delete(s.Columns, table)
		}
	}
	return s
}

// The lines that are to be used by taking off their # are good ones.
func TestStarterSettingsExamples(t *testing.T) {
	folder := startFiles(t)
	line := regexp.MustCompile(`(?m)^# ("[^"\n]+"|\w+)( = .*)$`)
	text := string(folder[starter.SettingsName].Data)
	require.Len(t, line.FindAllString(text, -1), 12)
	folder[starter.SettingsName] = &fstest.MapFile{Data: []byte(line.ReplaceAllString(text, "$1$2"))}
	res := intake.Read(folder, descriptors(t))
	require.Empty(t, res.Problems.Errors())
	s := res.Books.Settings
	assert.Equal(t, "2024-05-01", s.InService.String())
	assert.Equal(t, "14200", s.YearlyTotals["2026"].RatString())
	assert.Equal(t, "240 of 1600", s.Home.Shop.RatString()+" of "+s.Home.Whole.RatString())
	assert.Equal(t, map[string]string{"Stuff sold": "sales", "Notes to self": settingsroom.NoTable}, s.Sheets)
	assert.Equal(t, map[string]map[string]string{"sales": {"Amt rec'd": "price"}}, s.Columns)
	assert.Equal(t, 2025, s.Year)
	assert.Equal(t, map[string]string{"oak dreser": "Oak dresser"}, s.Names)
	assert.Equal(t, map[string]string{"120 grit": "Sandpaper 120"}, s.Items)
}

// The example lines are good records themselves: with the word taken off,
// every one is read.
func TestStarterExamplesAreGoodRecords(t *testing.T) {
	folder := changed(t, func(book *excelize.File) {
		for _, table := range descriptors(t).Tables {
			for i := range table.ExampleRows {
				cell := fmt.Sprintf("A%d", 2+i)
				text, err := book.GetCellValue(table.Title, cell)
				require.NoError(t, err)
				bare, is := strings.CutPrefix(text, templates.ExamplePrefix+" ")
				require.True(t, is, "%s %s: %s", table.Title, cell, text)
				require.NoError(t, book.SetCellStr(table.Title, cell, bare))
			}
		}
		// Two lines cannot show a piece for the second lot too.
		for cell, text := range map[string]string{"A4": "P003", "B4": "stool", "Q4": "L2"} {
			require.NoError(t, book.SetCellStr("Pieces", cell, text))
		}
	})
	res := intake.Read(folder, descriptors(t))
	for _, p := range res.Problems.Errors() {
		t.Error(p)
	}
	for _, tally := range res.Tally {
		assert.Equal(t, tally.Rows, tally.Used, tally.Sheet)
		assert.GreaterOrEqual(t, tally.Used, 2, tally.Sheet)
	}
}

// The three schedules and their supplies, made the owner's by taking the word
// off, with a purchase of each and one word a piece give costed pieces: no line
// of Uses. (Starting coverages: paint 3 sq ft a fl oz once over, so a quart does
// 96; two coats of 20 sq ft are 40 ÷ 96 of a quart of 24.00, 10.00.)
func TestStarterSchedulesCostPieces(t *testing.T) {
	set := descriptors(t)
	folder := changed(t, func(book *excelize.File) {
		put := func(sheet, cell string, value any) { require.NoError(t, book.SetCellValue(sheet, cell, value)) }
		for _, name := range []string{"supplies", "schedules"} {
			table := set.Table(name)
			for i, row := range table.ExampleRows {
				put(table.Title, fmt.Sprintf("A%d", 2+i), row[table.Fields[0].Name])
			}
		}
		for i, row := range set.Table("supplies").ExampleRows {
			for j, value := range []any{46082, row["supply"], 1, 24} {
				cell, err := excelize.CoordinatesToCellName(1+j, 4+i)
				require.NoError(t, err)
				put("Purchases", cell, value)
			}
		}
		fields, _ := set.Table("pieces").InOrderOfUse()
		for i, schedule := range []string{"Painted", "Clear", "Waxed over stain"} {
			for name, value := range map[string]any{"piece": schedule, "kind": "stool", "got_on": 46082, "price": 5, "area": 20,
				"schedule": schedule, "finished_on": 46090} {
				at := slices.IndexFunc(fields, func(f templates.Field) bool { return f.Name == name })
				cell, err := excelize.CoordinatesToCellName(1+at, 4+i)
				require.NoError(t, err)
				put("Pieces", cell, value)
			}
		}
	})
	res := intake.Read(folder, set)
	require.Empty(t, res.Problems.Errors())
	var painted []string
	for _, u := range res.Books.Uses {
		if u.Schedule == "Painted" {
			painted = append(painted, u.Supply)
		}
	}
	assert.Equal(t, []string{"Cleaner", "Sandpaper 120", "Primer", "White paint", "Clear coat"}, painted)
	l := costing.Run(&res.Books, calendar.MonthOf(2026, 3))
	require.Empty(t, l.Problems.Errors())
	into := map[string]money.Cents{}
	for _, p := range l.Postings() {
		if p.From == ledger.Shelf {
			into[p.Piece+", "+p.Supply] += p.Cents
		}
	}
	assert.Equal(t, money.Cents(1000), into["Painted, White paint"])
	for _, row := range set.Table("schedules").ExampleRows {
		assert.Positive(t, into[row["schedule"]+", "+row["supply"]], row)
	}
}

// Three pieces typed below the examples are a beginning; numbers that a
// spreadsheet likes to change stay as they are.
func TestStarterThreePieces(t *testing.T) {
	folder := changed(t, func(book *excelize.File) {
		for i, row := range [][]any{{"0012", "dresser", 46082, 40}, {"1E5", "side chair", 46083, 12.5},
			{"12-5", "stool", 46083, 8}} {
			for j, column := range []string{"A", "B", "D", "E"} {
				cell, err := excelize.JoinCellName(column, 4+i)
				require.NoError(t, err)
				require.NoError(t, book.SetCellValue("Pieces", cell, row[j]))
			}
		}
	})
	res := intake.Read(folder, descriptors(t))
	require.Empty(t, res.Problems.Errors())
	var ids, days []string
	for _, p := range res.Books.Pieces {
		ids, days = append(ids, p.ID), append(days, p.GotOn.String())
	}
	assert.Equal(t, []string{"0012", "1E5", "12-5"}, ids)
	assert.Equal(t, []string{"2026-03-01", "2026-03-02", "2026-03-02"}, days)
}

// A sheet of the owner's own that is merely called Lists is reported as before.
func TestOwnListsAreTold(t *testing.T) {
	folder := changed(t, func(book *excelize.File) { require.NoError(t, book.SetCellStr("Lists", "A1", "colours")) })
	res := intake.Read(folder, descriptors(t))
	require.Len(t, res.Problems.Notes(), 1)
	require.Equal(t, "Lists", res.Problems.Notes()[0].Place.Sheet)
	require.Equal(t, 20, res.Tally[len(res.Tally)-1].NotTable)
}

// What the data dictionary says may be typed is read, kind by kind.
func TestDictionaryFormsAreRead(t *testing.T) {
	res := read(t, map[string]string{
		"records/pieces.csv":    "piece,kind,got_on,price\nP1,chair,2026-03-01,\"$1,234.50\"\nP2,chair,3/9/2026,1234.5\n",
		"records/channels.csv":  "channel,from_date,fee_percent\nM,9 Mar 2026,10%\nN,\"Mar 9, 2026\",10\nO,,7 1/2\nP,,7½\n",
		"records/surfaces.csv":  "piece,part,shape,width,height\nP1,a,rectangle,\"3' 6\"\"\",90 cm\nP1,b,rectangle,36,\"36\"\"\"\n",
		"records/parts.csv":     "bought_on,pieces,what,cost\n2026-03-02,P1,a,40\n2026-03-02,P1;P2,b,(12.00)\n2026-03-02,P1+P2,c,-12.00\n2026-03-02,\"P1, P2\",d,1\n",
		"records/hours.csv":     "worked_on,hours\n2026-03-02,2.5\n2026-03-02,2:30\n2026-03-02,2h 30m\n2026-03-02,150 min\n",
		"records/supplies.csv":  "supply,group,container,coverage\nA,paint,1 qt,all\nB,wax,12 oz,40\nC,abrasive,50 sheets,\n",
		"records/purchases.csv": "bought_on,supply,containers,cost\n2026-03-02,A,2,20\n2026-03-03,A,-1,-10\n",
		"records/uses.csv":      "used_on,pieces,supply,amount\n2026-03-04,P1,A,8 fl oz\n2026-03-04,P1,A,1/2 qt\n2026-03-04,P1,A,250 ml\n2026-03-04,P1,C,3 sheets\n2026-03-04,P1,A,0.1\n",
	})
	require.Empty(t, noErrors(t, res))
	dictionary, err := os.ReadFile(filepath.Join("..", "..", "..", "templates", "DICTIONARY.md"))
	require.NoError(t, err)
	for _, form := range []string{"$1,234.50", "3/9/2026", "9 Mar 2026", "Mar 9, 2026", "10%", "7 1/2", "7½", `3' 6"`,
		"90 cm", "(12.00)", "-12.00", "2:30", "2h 30m",
		"150 min", "8 fl oz", "1/2 qt", "250 ml", "3 sheets", "1 qt", "12 oz", "50 sheets"} {
		assert.Contains(t, string(dictionary), form)
	}
	for _, h := range res.Books.Hours {
		assert.Equal(t, "5/2", h.Hours.RatString())
	}
}
