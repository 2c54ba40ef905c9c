package html_test

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/closing"
	"piecebook/ledger/figures"
	"piecebook/report"
	"piecebook/report/figuresjson"
	pages "piecebook/report/page"
	"piecebook/report/screen"
	"piecebook/report/testkit"
	pagewords "piecebook/report/words"
)

var screens = flag.String("screens", "", "a folder to write pictures of the pages to, to be looked at")

// browser is one browser for all of a test's pages, with what they said.
type browser struct {
	ctx  context.Context
	said []string // errors, console lines and requests
}

// open starts the browser, or skips where there is none; with CI set there must
// be one.
func open(t *testing.T) *browser {
	t.Helper()
	var path string
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			path = found
			break
		}
	}
	if path == "" {
		if os.Getenv("CI") != "" {
			t.Fatal("no browser is here; .ci/run installs chromium")
		}
		t.Skip("no browser is here")
	}
	// Not a folder of the test's own, which must be gone in the end: a browser that
	// is told to stop may still be writing.
	profile, err := os.MkdirTemp("", "browser")
	require.NoError(t, err)
	t.Cleanup(func() { _ = os.RemoveAll(profile) })
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox,
		chromedp.UserDataDir(profile))
	parent, stop := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, cancel := chromedp.NewContext(parent)
	ctx, late := context.WithTimeout(ctx, 8*time.Minute)
	t.Cleanup(func() { late(); cancel(); stop() })
	b := &browser{ctx: ctx}
	chromedp.ListenTarget(ctx, func(event any) {
		switch e := event.(type) {
		case *runtime.EventExceptionThrown:
			b.said = append(b.said, "error: "+e.ExceptionDetails.Error())
		case *runtime.EventConsoleAPICalled:
			b.said = append(b.said, "console: "+string(e.Type))
		case *log.EventEntryAdded:
			b.said = append(b.said, "log: "+e.Entry.Text)
		case *page.EventJavascriptDialogOpening:
			b.said = append(b.said, "dialog: "+e.Message)
		case *network.EventRequestWillBeSent:
			if !strings.HasPrefix(e.Request.URL, "file:") && !strings.HasPrefix(e.Request.URL, "data:") {
				b.said = append(b.said, "request: "+e.Request.URL)
			}
		}
	})
	require.NoError(t, chromedp.Run(ctx, network.Enable(), log.Enable(), page.Enable()))
	return b
}

// show loads a file at a width, in light or dark.
func (b *browser) show(t *testing.T, file string, width int64, scheme string) {
	t.Helper()
	feature := []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}
	require.NoError(t, chromedp.Run(b.ctx, emulation.SetDeviceMetricsOverride(width, 900, 1, false),
		emulation.SetEmulatedMedia().WithFeatures(feature), chromedp.Navigate("about:blank"),
		chromedp.Navigate("file://"+file)))
}

// ask runs one of the looks and reports what it finds wrong.
func (b *browser) ask(t *testing.T, what, call string) {
	t.Helper()
	script, err := os.ReadFile(filepath.Join("testdata", "look.js"))
	require.NoError(t, err)
	var wrong []string
	require.NoError(t, chromedp.Run(b.ctx, chromedp.Evaluate(string(script)+"\nlook."+call, &wrong,
		func(p *runtime.EvaluateParams) *runtime.EvaluateParams { return p.WithAwaitPromise(true) })), what)
	assert.Empty(t, wrong, "%s: %.40s", what, call)
}

// quiet checks that no page said or asked for anything.
func (b *browser) quiet(t *testing.T, what string) {
	t.Helper()
	assert.Empty(t, b.said, what)
	b.said = nil
}

// written is a document in a file.
func written(t *testing.T, name string, data []byte) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(file, data, 0o600))
	return file
}

// TestInABrowser: in a real browser tables sort and filter, links lead to what
// is shown, the keyboard comes back, nothing is wider than a phone, hostile words
// do nothing, no rule of accessibility is broken, and nothing is said or asked for.
func TestInABrowser(t *testing.T) {
	b := open(t)
	ins, l := testkit.SampleBooks(t)
	month := written(t, "month.html", rendered(t, screen.Month(ins[len(ins)-1])))
	b.show(t, month, 1280, "light")
	for _, call := range []string{"links()", "sorts()", "filters()", "keyboard()", "rows(4)", "underlined()"} {
		b.ask(t, "month", call)
	}
	for _, width := range []int64{320, 640} { // a phone, and 1280 at 200 %
		b.show(t, month, width, "dark")
		b.ask(t, fmt.Sprint(width), "wide()")
		b.ask(t, fmt.Sprint(width), "rows(2)")
		b.ask(t, fmt.Sprint(width), "labels()")
	}
	b.quiet(t, "month")
	b.show(t, written(t, "hostile.html", rendered(t, everything(strings.Join(hostile, " ")))), 640, "light")
	b.ask(t, "hostile words", "links()")
	hostileMonth, hostileYear, _ := hostileRecords(t)
	for _, data := range [][]byte{hostileMonth, hostileYear} {
		b.show(t, written(t, "records.html", data), 640, "light")
		b.ask(t, "hostile records", "links()")
		b.ask(t, "hostile records", "figures(50, 300)")
	}
	b.quiet(t, "hostile words")
	tax := written(t, "year.html", rendered(t, screen.Year(testkit.YearOf(t, ins[11], l))))
	b.show(t, tax, 640, "light")
	for _, call := range []string{"figures(25, 300)", "links()", "wide()", "underlined()"} {
		b.ask(t, "year", call)
	}
	b.quiet(t, "year")
	b.pictures(t, "month", month)
	b.pictures(t, "year", tax)
}

// TestAccessible: no rule of accessibility is broken in any form of a small
// month after one that was made and has changed since, and of one of no sales;
// nor in forms chosen among them of a large month that is a draft after closed
// months and corrects them, and of a year with corrections.
func TestAccessible(t *testing.T) {
	b := open(t)
	ins, l := testkit.SampleBooks(t)
	small, quiet := testkit.SmallShop(t), testkit.SmallShop(t)
	small.Earlier = []closing.Since{{Month: small.Month.From - 1, Amounts: []closing.Amount{{Part: closing.InStatement,
		Name: string(figures.LineNetProfit), Was: 100, Is: 200}}}}
	quiet.Month.Pieces = slices.DeleteFunc(slices.Clone(quiet.Month.Pieces), quiet.SoldIn)
	b.accessible(t, "small", screen.Month(small), views)
	b.accessible(t, "no sales", screen.Month(quiet), views)
	closed := testkit.Closed(t)
	closed.Draft = true
	b.accessible(t, "after closed months, a draft", screen.Month(closed), views[2:4])
	ins[11].Corrections = []*closing.Corrections{{Last: ins[10].Month.To, Postings: slices.Collect(ins[11].InMonth())[:9]}}
	b.accessible(t, "year", screen.Year(testkit.YearOf(t, ins[11], l)), views[1:3])
	b.quiet(t, "accessibility")
}

// TestEveryMonthWithoutScripts: with scripts off every figure of every month of
// the sample, and of both its years, opens to what adds up to it, which is what
// figures.json has.
func TestEveryMonthWithoutScripts(t *testing.T) {
	b := open(t)
	require.NoError(t, chromedp.Run(b.ctx, emulation.SetScriptExecutionDisabled(true)))
	ins, l := testkit.SampleBooks(t)
	for i, in := range ins {
		name := in.Month.To.String()
		data, err := figuresjson.Month(in.Month)
		require.NoError(t, err)
		b.show(t, written(t, name+".html", rendered(t, screen.Month(in))), 640, "light")
		b.ask(t, name, fmt.Sprintf("figures(40, %d)", 300))
		b.ask(t, name, fmt.Sprintf("asJSON(%s, %s, %d)", data, linesByLabel(t, in.Month), 10*len(in.Month.Pieces)))
		b.ask(t, name, "finder("+string(data)+")")
		b.ask(t, name, "links()")
		if i == 0 {
			b.withoutScripts(t)
		}
		b.quiet(t, name)
	}
	for _, in := range []report.Input{ins[11], ins[13]} {
		year := testkit.YearOf(t, in, l)
		name := fmt.Sprint(year.Tax.Year)
		data, err := figuresjson.Year(year.Tax)
		require.NoError(t, err)
		b.show(t, written(t, name+".html", rendered(t, screen.Year(year))), 640, "light")
		b.ask(t, name, "figures(40, 400)")
		b.ask(t, name, fmt.Sprintf("asJSON(%s, %s, %d)", data, linesByLabel(t, year.Month), 150))
		b.ask(t, name, "taxLines("+string(data)+")")
		b.ask(t, name, "links()")
		b.quiet(t, name)
	}
}

// linesByLabel are the names of figures.json's lines by their labels on pages,
// as a script reads them.
func linesByLabel(t *testing.T, f figures.Figures) []byte {
	t.Helper()
	of := func(scope figures.Scope) map[string]figures.ID {
		out := map[string]figures.ID{}
		for _, l := range figures.LinesOf(scope) {
			out[pagewords.Label(scope, l.ID)] = l.ID
		}
		delete(out, "")
		return out
	}
	titles := map[string]figures.ID{}
	for _, line := range figures.LinesOf(figures.OfStatement) {
		titles[pagewords.Capital(pagewords.Figure(line.ID))] = line.ID
	}
	out, err := json.Marshal(map[string]any{"titles": titles, "month": pagewords.Months(f.From, f.To),
		"piece":     of(figures.OfPiece),
		"statement": of(figures.OfStatement), "stock": of(figures.OfStock), "shelf": of(figures.OfShelf)})
	require.NoError(t, err)
	return out
}

// withoutScripts follows a figure's link by the mouse and sees its detail.
func (b *browser) withoutScripts(t *testing.T) {
	t.Helper()
	var forms int
	var open, closed bool
	require.NoError(t, chromedp.Run(b.ctx,
		chromedp.Evaluate(`document.querySelectorAll("form").length`, &forms),
		chromedp.Click("dl.keys dd.key a", chromedp.ByQuery),
		chromedp.WaitVisible("aside section:has(:target), aside section:target", chromedp.ByQuery),
		chromedp.Evaluate(`document.querySelector("aside :target").getClientRects().length > 0`, &open),
		chromedp.Click("aside > a.close", chromedp.ByQuery),
		chromedp.Evaluate(`document.querySelector("aside section:target, aside section :target") === null`, &closed)))
	assert.Zero(t, forms, "nothing is shown that needs scripts")
	assert.True(t, open && closed, "it opens and closes without scripts")
}

// accessible runs every rule of an accessibility engine (axe-core, of which
// PIECEBOOK_AXE names the script) over the pages in each form.
func (b *browser) accessible(t *testing.T, name string, d pages.Document, views []view) {
	t.Helper()
	engine, err := os.ReadFile(os.Getenv("PIECEBOOK_AXE"))
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("PIECEBOOK_AXE must name axe.min.js; .ci/run fetches it:", err)
		}
		t.Log("the accessibility rules are not run: PIECEBOOK_AXE names no axe.min.js")
		return
	}
	b.show(t, written(t, "page.html", rendered(t, d)), 1280, "light")
	require.NoError(t, chromedp.Run(b.ctx, chromedp.Evaluate(string(engine), nil)))
	for _, v := range views {
		what := fmt.Sprintf("%s at %d, %s, %s, %s", name, v.width, v.scheme, v.media, v.first)
		require.NoError(t, chromedp.Run(b.ctx, emulation.SetDeviceMetricsOverride(v.width, 900, 1, false),
			emulation.SetEmulatedMedia().WithMedia(v.media).WithFeatures(
				[]*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: v.scheme}})))
		b.ask(t, what, v.first)
		b.ask(t, what, fmt.Sprintf("rules(%t)", v.media == "print"))
	}
}

// view is a form of a page.
type view struct {
	width         int64
	scheme, media string
	first         string // what is done first
}

// views are the forms in which every page is looked at. What is opened or
// filtered stays so in the next.
var views = []view{
	{1280, "light", "screen", "numbers()"},           // with the charts' numbers
	{768, "dark", "screen", "open('table a')"},       // a figure open
	{320, "light", "screen", "open('main table a')"}, // a phone
	{320, "dark", "screen", "filter()"},              // filtered and sorted
	{1280, "light", "print", "open('table a')"},      // on paper
}

// pictures writes what the pages look like, where -screens names a folder.
func (b *browser) pictures(t *testing.T, of, file string) {
	t.Helper()
	if *screens == "" {
		return
	}
	require.NoError(t, os.MkdirAll(*screens, 0o755))
	for _, width := range []int64{320, 768, 1280} {
		for _, scheme := range []string{"light", "dark"} {
			for _, hash := range []string{"", "B"} {
				b.show(t, file, width, scheme)
				var png []byte
				take := chromedp.ActionFunc(func(ctx context.Context) (err error) {
					png, err = page.CaptureScreenshot().Do(ctx)
					return err
				})
				if hash == "" {
					require.NoError(t, chromedp.Run(b.ctx, chromedp.FullScreenshot(&png, 100)))
				} else {
					require.NoError(t, chromedp.Run(b.ctx, chromedp.Evaluate("location.hash='"+hash+"'", nil), take))
				}
				name := fmt.Sprintf("%s-%d-%s%s.png", of, width, scheme, hash)
				require.NoError(t, os.WriteFile(filepath.Join(*screens, name), png, 0o600))
			}
		}
	}
	var pdf []byte
	require.NoError(t, chromedp.Run(b.ctx, chromedp.ActionFunc(func(ctx context.Context) (err error) {
		pdf, _, err = page.PrintToPDF().Do(ctx)
		return err
	})))
	require.NoError(t, os.WriteFile(filepath.Join(*screens, of+"-printed.pdf"), pdf, 0o600))
}
