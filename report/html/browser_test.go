package html_test

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
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

	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/figuresjson"
	pages "piecebook/report/page"
	"piecebook/report/screen"
	"piecebook/report/testkit"
	"piecebook/templates"
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
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox,
		chromedp.UserDataDir(t.TempDir()))
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
	assert.Empty(t, wrong, "%s: %s", what, call)
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

// TestInABrowser: in a real browser figures open to what adds up to them and to
// figures.json, tables sort and filter, links lead to what is shown, the
// keyboard comes back, nothing is wider than a phone, with scripts off it opens
// too, hostile words do nothing, and nothing is said or asked for.
func TestInABrowser(t *testing.T) {
	b := open(t)
	ins := testkit.SampleInputs(t)
	in := ins[len(ins)-1]
	month := written(t, "month.html", rendered(t, screen.Month(in)))
	figures, err := figuresjson.Month(in.Month)
	require.NoError(t, err)
	var f struct{ Pieces json.RawMessage }
	require.NoError(t, json.Unmarshal(figures, &f))

	b.show(t, month, 1280, "light")
	for _, call := range []string{"figures(7)", "links()", "sorts()", "filters()", "keyboard()",
		"rows(4)", fmt.Sprintf("asJSON(%s)", f.Pieces)} {
		b.ask(t, "month", call)
	}
	for _, width := range []int64{320, 640} { // a phone, and 1280 at 200 %
		b.show(t, month, width, "dark")
		b.ask(t, fmt.Sprint(width), "wide()")
		b.ask(t, fmt.Sprint(width), "rows(2)")
	}
	b.quiet(t, "month")

	early := written(t, "early.html", rendered(t, screen.Month(ins[3])))
	b.show(t, early, 640, "light")
	b.ask(t, "an early month", "figures(11)")
	b.show(t, written(t, "hostile.html", rendered(t, everything(strings.Join(hostile, " ")))), 640, "light")
	b.ask(t, "hostile words", "links()")
	b.quiet(t, "hostile words")

	require.NoError(t, chromedp.Run(b.ctx, emulation.SetScriptExecutionDisabled(true)))
	b.show(t, month, 640, "light")
	b.withoutScripts(t)
	require.NoError(t, chromedp.Run(b.ctx, emulation.SetScriptExecutionDisabled(false)))
	b.quiet(t, "scripts off")
	tax := written(t, "year.html", rendered(t, sampleYear(t)))
	b.show(t, tax, 640, "light")
	b.ask(t, "year", "figures(9)")
	b.ask(t, "year", "links()")
	b.ask(t, "year", "wide()")
	b.quiet(t, "year")
	b.accessible(t, month, early, tax)
	b.pictures(t, month)
}

// sampleYear is the sample's tax year 2025 for a screen.
func sampleYear(t *testing.T) (d pages.Document) {
	t.Helper()
	tax, err := templates.TaxFor("USD")
	require.NoError(t, err)
	set, err := templates.Load()
	require.NoError(t, err)
	ins, l := testkit.SampleBooks(t)
	in := ins[11] // December
	y, err := taxyear.For(l, in.Month.To.Year(), tax, set.AtOnceCents)
	require.NoError(t, err)
	in.Month = y.Figures
	return screen.Year(report.YearInput{Input: in, Tax: y, Law: tax})
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
func (b *browser) accessible(t *testing.T, month, early, year string) {
	t.Helper()
	name := os.Getenv("PIECEBOOK_AXE")
	engine, err := os.ReadFile(name)
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("PIECEBOOK_AXE must name axe.min.js; .ci/run fetches it:", err)
		}
		t.Log("the accessibility rules are not run: PIECEBOOK_AXE names no axe.min.js")
		return
	}
	for _, view := range []struct {
		file         string
		width        int64
		scheme, hash string
	}{{month, 1280, "light", ""}, {early, 320, "dark", "#f1"}, {year, 320, "light", "#f2"}} {
		b.show(t, view.file, view.width, view.scheme)
		require.NoError(t, chromedp.Run(b.ctx, chromedp.Evaluate(string(engine), nil),
			chromedp.Evaluate("location.hash='"+view.hash+"'", nil)))
		b.ask(t, fmt.Sprintf("%s at %d, %s %s", filepath.Base(view.file), view.width, view.scheme, view.hash), "rules()")
	}
}

// pictures writes what the pages look like, where -screens names a folder.
func (b *browser) pictures(t *testing.T, file string) {
	t.Helper()
	if *screens == "" {
		return
	}
	require.NoError(t, os.MkdirAll(*screens, 0o755))
	for _, width := range []int64{320, 768, 1280} {
		for _, scheme := range []string{"light", "dark"} {
			for _, hash := range []string{"", "f1"} {
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
				name := fmt.Sprintf("%d-%s%s.png", width, scheme, hash)
				require.NoError(t, os.WriteFile(filepath.Join(*screens, name), png, 0o600))
			}
		}
	}
	var pdf []byte
	require.NoError(t, chromedp.Run(b.ctx, chromedp.ActionFunc(func(ctx context.Context) (err error) {
		pdf, _, err = page.PrintToPDF().Do(ctx)
		return err
	})))
	require.NoError(t, os.WriteFile(filepath.Join(*screens, "printed.pdf"), pdf, 0o600))
}
