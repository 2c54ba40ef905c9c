package html_test

import (
	"bytes"
	"flag"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	nethtml "golang.org/x/net/html"

	"piecebook/ledger"
	"piecebook/report/html"
	"piecebook/report/page"
	"piecebook/report/screen"
	"piecebook/report/testkit"
)

// rendered is a document as a file.
func rendered(t *testing.T, d page.Document) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, html.Write(&out, d))
	return out.Bytes()
}

// TestSampleMonths: every month of the sample holds together as a file, and is
// the same bytes each time.
func TestSampleMonths(t *testing.T) {
	for i, in := range testkit.SampleInputs(t) {
		if i%6 != 1 {
			continue // the last among them
		}
		data := rendered(t, screen.Month(in))
		root := holds(t, in.Month.To.String(), data)
		assert.True(t, bytes.Equal(data, rendered(t, screen.Month(in))), in.Month.To)
		sheets := 0
		every(root, func(n *nethtml.Node) {
			if n.Data == "h2" && strings.Contains(words(n), " · ") {
				sheets++
			}
		})
		assert.Equal(t, len(in.Month.Pieces), sheets, "each piece of the month and in stock has its sheet")
		every(root, func(n *nethtml.Node) {
			if n.Data == "main" {
				every(n, func(n *nethtml.Node) {
					named := n.Data != "table" || value(n, "aria-label") != "" || n.FirstChild.Data == "caption"
					assert.True(t, named, "%s: a table without a name: %.60s", in.Month.To, words(n))
				})
			}
		})
	}
}

// TestTooLarge: of a file that would be over 3 MB the first details are short, as
// many as it takes; a figure still leads to where it is.
func TestTooLarge(t *testing.T) {
	long := strings.Repeat("words ", 200_000)
	d := page.Document{Sections: []page.Section{{Title: "Month"}}}
	for _, name := range []string{"a", "b", "c", "d"} {
		table := page.Table{Caption: "of " + name, Columns: []page.Column{{Head: "Piece"},
			{Head: "Amount", Kind: page.KindMoney, Of: name}}, Rows: []page.Row{page.Line(page.Text("P1"), page.Money(5))}}
		d.Details = append(d.Details, page.Detail{Of: "all " + name, Title: name,
			Blocks: []page.Block{page.Paragraph{Text: long}, table}, Short: []page.Block{page.Paragraph{Text: "short " + name},
				table}})
		d.Sections[0].Blocks = append(d.Sections[0].Blocks, page.KeyFigures{Items: []page.KeyFigure{{
			Figure: page.Money(5).Opens(name), Words: name}}})
	}
	data := rendered(t, d)
	holds(t, "too large", data)
	var short []bool
	for _, name := range []string{"a", "b", "c", "d"} {
		short = append(short, bytes.Contains(data, []byte("short "+name)))
	}
	assert.Equal(t, []bool{true, true, false, false}, short)
	assert.Less(t, len(data), 3_000_000)
}

// TestKeyFiguresInRows: figures that are so many in a row have a class that the
// style lays out by that many; without a number they fill the width.
func TestKeyFiguresInRows(t *testing.T) {
	classes := func(d page.Document) (out []string, style string) {
		every(parsed(t, rendered(t, d)), func(n *nethtml.Node) {
			switch {
			case n.Data == "dl" && strings.HasPrefix(value(n, "class"), "keys"):
				out = append(out, value(n, "class"))
			case n.Data == "style":
				style = words(n)
			}
		})
		return out, style
	}
	items := []page.KeyFigure{{Figure: page.Money(5), Words: "receipts"}}
	got, _ := classes(page.Document{Sections: []page.Section{{Title: "Month", Blocks: []page.Block{
		page.KeyFigures{Items: items, Across: 4}, page.KeyFigures{Items: items}}}}})
	assert.Equal(t, []string{"keys across4", "keys"}, got)

	ins := testkit.SampleInputs(t)
	got, style := classes(screen.Month(ins[len(ins)-1]))
	assert.Contains(t, got, "keys across4")
	for _, class := range got {
		if _, across, ok := strings.Cut(class, " across"); ok {
			assert.Contains(t, style, ".across"+across+"{grid-template-columns:repeat("+across+",")
		}
	}
}

// hostile are texts that would run, load or lead somewhere, or end what they
// stand in, wherever they came in unescaped.
var hostile = []string{`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `' onmouseover='alert(1)`,
	`javascript:alert(1)`, `</title><script>alert(1)</script>`, `</style><svg onload=alert(1)>`, `<!--`, `]]>`,
	`&lt;b&gt;`,
	`{{.}}`, `</svg><iframe src=//x.example>`, "\u2028<a href=//x.example>", `<base href=//x.example>`, `\"-alert(1)//`,
	`<math><mtext></p><style><img src onerror=alert(1)>`, "\x00<p>", `=HYPERLINK("//x.example")`, `#s1`, `../../x`}

var many = flag.Int("hostile", 40, "how many hostile words TestHostileWords tries in every place")

// TestHostileWords: whatever words stand in a document, in whichever place, the
// file has no element, attribute or link of theirs, and shows them as they are.
func TestHostileWords(t *testing.T) {
	list := slices.Clone(hostile)
	dice := rand.New(rand.NewPCG(1, 2))
	for len(list) < *many { // two of them cut and joined
		a, b := hostile[dice.IntN(len(hostile))], hostile[dice.IntN(len(hostile))]
		list = append(list, strings.ToValidUTF8(a[:dice.IntN(len(a)+1)]+b[dice.IntN(len(b)):], "?"))
	}
	for _, x := range list {
		if strings.TrimSpace(x) == "" {
			continue
		}
		root := holds(t, x, rendered(t, everything(x)))
		shown := page.Visible(strings.ReplaceAll(x, "\x00", "\uFFFD"))
		assert.GreaterOrEqual(t, strings.Count(words(root), shown), 40, x)
	}
}

// everything is a document with each kind of block, and x for every word.
func everything(x string) page.Document {
	one := 1.0
	cell := page.Money(-5).Opens(x)
	table := page.Table{Caption: x, Note: x, Finder: true, Columns: []page.Column{{Head: x, Find: true},
		{Head: x, Kind: page.KindMoney, Find: true}, {Head: x, Kind: page.KindDrawn, Scale: &page.Scale{Hi: 3,
			Lines: []page.Level{{At: 1, Label: x}}}}, {Head: x, Kind: page.KindDate}, {Head: x, Kind: page.KindNumber}},
		Rows: []page.Row{page.Styled(page.Group, page.Text(x)), {Note: x, Anchor: x, Indent: 1, Cells: []page.Cell{
			page.TextTo(x, x), cell, page.Draw(page.Drawn{Bar: &page.Interval{To: 2}, Dots: []float64{1}, Own: []float64{2},
				Tick: &one}), page.Date(x), page.Number(x)}},
			page.Styled(page.GrandTotal, page.Text(x), page.FullMoney(0))}}
	key := page.KeyFigure{Figure: cell, Words: x, By: page.Minus, From: []page.Term{{Figure: cell, Words: x}},
		Small: []page.SubFigure{{Label: x, Figure: page.Empty()}}}
	return page.Document{Title: x, Shop: x, Period: x, Author: x, Subject: x, Fingerprint: x, Banner: x, Currency: x,
		Sections: []page.Section{{Title: x, Anchor: x, Untitled: true, Blocks: []page.Block{
			page.Title{Text: x, Under: x, Right: x}, page.Heading{Text: x, Level: 1, Anchor: x + "2"},
			page.Paragraph{Text: x, Tail: x, Mark: x, Link: x, Style: page.Caution},
			page.KeyFigures{Items: []page.KeyFigure{key}},
			page.Facts{Items: []page.Fact{{Label: x, Value: x, Under: x}}},
			page.Columns{Left: []page.Block{table}, Right: []page.Block{page.Photos{Items: []page.Photo{{Caption: x,
				JPEG: []byte("x"), Width: 2, Height: 1}, {Caption: x, Missing: x}}}}},
			page.VerticalBars{Caption: x, Note: x, Head: x, Level: page.Level{At: 2, Label: x},
				Items: []page.VerticalBar{{Label: x, Figure: cell, Strong: true}, {Label: x, Figure: page.Money(9)}}},
			page.Timeline{Stretches: []page.Stretch{{Label: x, To: 2}}, Days: []page.Moment{{Label: x}}},
			page.Strip{Points: []int64{1, 2}, Own: page.Point{At: 3, Label: x}, Median: page.Point{At: 2, Label: x},
				Target: page.Point{At: 9, Label: x}},
			page.Dots{Caption: x, Of: x, Points: x, Rows: []page.DotRow{{Label: x, Points: []int64{1}}}},
			page.Bars{Caption: x, Heads: [2]string{x, x}, Rows: []page.Bar{{Label: x, Figure: cell}}},
			page.KeepTogether{Blocks: []page.Block{page.Break{}, page.Gap{Thirds: 1}}}}},
			{Title: x, Blocks: []page.Block{page.Paragraph{Text: x}}}},
		Details: []page.Detail{{Of: x, Title: x, Figure: cell, Blocks: []page.Block{table}}}}
}

// TestHostileRecords: every word of every record is hostile, the names of files
// and sheets too, and the month's and the year's file have no element, attribute
// or link of theirs, and show them as they are.
func TestHostileRecords(t *testing.T) {
	month, year, made := hostileRecords(t)
	shown := 0
	for name, data := range map[string][]byte{"month": month, "year": year} {
		text := words(holds(t, "hostile records, "+name, data))
		for _, x := range made {
			if strings.Contains(text, page.Visible(strings.ReplaceAll(x, "\x00", "\uFFFD"))) {
				shown++
			}
		}
	}
	assert.Greater(t, shown, 300)
}

// hostileRecords are the sample's last month and its year with hostile words in
// every field of every record. Words that were equal still are, so that the
// records name each other as before.
func hostileRecords(t *testing.T) (month, year []byte, made map[string]string) {
	t.Helper()
	made = map[string]string{}
	ins, l := testkit.MonthsWith(t, func(b *ledger.Books) {
		settings := b.Settings // its words but the shop's name are choices
		hostileIn(reflect.ValueOf(b).Elem(), made)
		settings.Shop = b.Settings.Shop
		b.Settings = settings
	})
	assert.Greater(t, len(made), 1000)
	return rendered(t, screen.Month(ins[len(ins)-1])), rendered(t, screen.Year(testkit.YearOf(t, ins[11], l))), made
}

// hostileIn puts hostile words into every text of a value.
func hostileIn(v reflect.Value, made map[string]string) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() && v.Type().Elem().PkgPath() != "math/big" {
			hostileIn(v.Elem(), made)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				hostileIn(v.Field(i), made)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			hostileIn(v.Index(i), made)
		}
	case reflect.String:
		// Types of their own are closed lists, not the owner's words.
		if x := v.String(); v.Type() == reflect.TypeFor[string]() && x != "" {
			if made[x] == "" {
				made[x] = x + hostile[len(made)/2%len(hostile)]
				made[made[x]] = made[x] // of lists that records share, once
			}
			v.SetString(made[x])
		}
	}
}
