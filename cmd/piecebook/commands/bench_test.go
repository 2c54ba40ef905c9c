package commands

import (
	"bytes"
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"runtime/metrics"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/go-fonts/liberation/liberationsansregular"
	"github.com/jung-kurt/gofpdf"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/made"
	"piecebook/cmd/piecebook/packs"
	"piecebook/ledger/checks"
	"piecebook/ledger/costing"
	"piecebook/ledger/intake"
	ledgerkit "piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bigbooks"
	"piecebook/report/figuresjson"
	"piecebook/report/outfile"
	"piecebook/templates"
)

var (
	benchTable = flag.String("benchtable", "", "measure every step on books of four sizes and write the "+
		"table to this file")
	packOf     = flag.String("packof", "", "make the pack of this folder without its page for a browser; -benchtable does")
	benchSizes = flag.String("benchsizes", "year,ten times,hundredfold,ten years", "the sizes that -benchtable measures")
)

// benchSize is a size that is measured.
type benchSize struct {
	name string
	size bigbooks.Size
}

var allBenchSizes = []benchSize{
	{"year", bigbooks.Year}, {"ten times", bigbooks.TenTimes}, {"hundredfold", bigbooks.HundredFold}, {"ten years", bigbooks.TenYears},
}

// measured is what one step took.
type measured struct {
	wall, cpu time.Duration
	allocs    uint64 // objects
	bytes     uint64 // allocated in all
	peak      uint64 // bytes in use above what was before; of the whole pack, the process's
	out       int64  // bytes written or read
}

// step is one step of the work, or a raw limit that steps are compared with.
type step struct {
	name string
	Run  func() (int64, error) // how many bytes it wrote or read
}

// TestBenchTable writes what each step takes at each size, beside what bare
// libraries take for the same bytes. It asserts no time: the table is for a
// reader, who compares ratios within one run.
func TestBenchTable(t *testing.T) {
	if *benchTable == "" {
		t.Skip("measures only with -benchtable FILE; make bench does")
	}
	// The tests' own program is larger than the one people run.
	program := filepath.Join(t.TempDir(), "piecebook")
	text, err := exec.Command("go", "build", "-o", program, "piecebook/cmd/piecebook").CombinedOutput()
	require.NoError(t, err, string(text))
	results := map[string]map[string]measured{}
	var sizes []string
	var names []string
	var about []string
	for _, s := range allBenchSizes {
		if !slices.Contains(strings.Split(*benchSizes, ","), s.name) {
			continue
		}
		sizes = append(sizes, s.name)
		results[s.name] = map[string]measured{}
		made := bigbooks.Make(1, s.size)
		about = append(about, fmt.Sprintf("%s: %d pieces a year, %d years, %d lines", s.name, s.size.Pieces, s.size.Years,
			made.Lines()))
		for _, step := range benchSteps(t, made) {
			results[s.name][step.name] = timed(t, step)
			if !slices.Contains(names, step.name) {
				names = append(names, step.name)
			}
		}
		results[s.name][onPaper] = measurePack(t, made, os.Args[0], "-test.run=^TestPackWithoutPage$", "-packof")
		results[s.name][wholePack] = measurePack(t, made, program, "month")
	}
	names = append(names, onPaper, wholePack)
	require.NoError(t, os.WriteFile(*benchTable, benchText(about, names, sizes, results), 0o644))
}

// wholePack is the program from its start to its end, as a process of its own;
// onPaper the same without the page for a browser, by the tests' own program.
const (
	wholePack = "the whole pack, a process"
	onPaper   = "the pack without month.html, a process"
)

// TestPackWithoutPage makes a pack as the command month does, but for month.html.
func TestPackWithoutPage(t *testing.T) {
	if *packOf == "" {
		t.Skip("makes a pack only with -packof DIR")
	}
	c := cli.Call{Books: *packOf}
	b, err := c.Open(0)
	require.NoError(t, err)
	in, err := b.Input()
	require.NoError(t, err)
	figures, err := figuresjson.Month(in.Month)
	require.NoError(t, err)
	files := slices.DeleteFunc(packs.PackFiles(b, in), func(f outfile.File) bool { return f.Name == "month.html" })
	files = append(files, cli.PlainFile(cli.FiguresFile, figures))
	dir := filepath.Join(c.OutDir(), b.Month.String())
	require.NoError(t, c.Write(dir, append(files, made.MadeFrom(b, figures)...)))
}

// benchSteps are the steps for made books, in the order of the work.
func benchSteps(t *testing.T, made *bigbooks.Books) []step {
	plain, book := ledgerkit.Folder(t, made.Folder()), ledgerkit.Folder(t, made.WorkbookFolder())
	set, err := templates.Load()
	require.NoError(t, err)
	read := func(dir string) func() (int64, error) {
		return func() (int64, error) {
			return sizeOf(dir), noErrors(intake.Read(os.DirFS(dir), set))
		}
	}
	c := cli.Call{Books: book}
	b, err := c.Open(bigbooks.LastMonth)
	require.NoError(t, err)
	in, err := b.Input()
	require.NoError(t, err)
	var pages int
	files := packs.PackFiles(b, in)
	steps := []step{
		{"raw: encoding/csv", func() (int64, error) { return sizeOf(plain), rawCSV(plain) }},
		{"intake, CSV", read(plain)},
		{"raw: the workbook library's rows", func() (int64, error) { return sizeOf(book), rawRows(book) }},
		{"intake, XLSX", read(book)},
		{"checks across tables", func() (int64, error) { checks.Look(&b.Read.Books, b.Month); return 0, nil }},
		{"costing", func() (int64, error) { costing.Run(&b.Read.Books, b.Month); return 0, nil }},
		{"figures of the pack", func() (int64, error) { _, err := b.Input(); return 0, err }},
		{"figures.json", func() (int64, error) { text, err := figuresjson.Month(in.Month); return int64(len(text)), err }},
	}
	for i, f := range files {
		steps = append(steps, step{f.Name, func() (int64, error) {
			var out bytes.Buffer
			err := files[i].Write(&out)
			if f.Name == "pieces.pdf" {
				pages = bytes.Count(out.Bytes(), []byte("/Type /Page\n"))
			}
			return int64(out.Len()), err
		}})
	}
	return append(steps, step{"raw: the PDF library, as many dense pages as pieces.pdf",
		func() (int64, error) { return rawPages(pages) }})
}

// noErrors fails where books that should be without errors have some.
func noErrors(read *intake.Result) error {
	if read.Problems.HasErrors() {
		return errors.New(read.Problems.Errors()[0].String())
	}
	return nil
}

// recordFiles are the files of a folder's records.
func recordFiles(dir string) []string {
	names, _ := filepath.Glob(filepath.Join(dir, "records", "*"))
	return names
}

func sizeOf(dir string) int64 {
	var sum int64
	for _, name := range recordFiles(dir) {
		if info, err := os.Stat(name); err == nil {
			sum += info.Size()
		}
	}
	return sum
}

// rawCSV splits the plain files into cells and does no more.
func rawCSV(dir string) error {
	for _, name := range recordFiles(dir) {
		f, err := os.Open(name)
		if err != nil {
			return err
		}
		r := csv.NewReader(f)
		for err == nil {
			_, err = r.Read()
		}
		f.Close()
		if err != io.EOF {
			return err
		}
	}
	return nil
}

// rawRows reads every sheet's cells with the workbook library's streaming
// reader and does no more.
func rawRows(dir string) error {
	for _, name := range recordFiles(dir) {
		f, err := excelize.OpenFile(name)
		if err != nil {
			return err
		}
		defer f.Close()
		for _, sheet := range f.GetSheetList() {
			rows, err := f.Rows(sheet)
			if err != nil {
				return err
			}
			for rows.Next() {
				if _, err := rows.Columns(); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// rawPages draws pages of fifty lines of eight cells with an embedded face.
func rawPages(pages int) (int64, error) {
	d := gofpdf.New("P", "pt", "Letter", "")
	d.AddUTF8FontFromBytes("face", "", bytes.Clone(liberationsansregular.TTF))
	d.SetFont("face", "", 8.5)
	for p := range pages {
		d.AddPage()
		for line := range 50 {
			for cell := range 8 {
				d.Text(40+float64(cell)*66, 50+float64(line)*14, fmt.Sprintf("%d,%03d.%02d of %d", p, line, cell, line*cell))
			}
		}
	}
	var out bytes.Buffer
	err := d.Output(&out)
	return int64(out.Len()), err
}

// timed runs a step three times, a slow one once, and keeps the least times;
// the memory is that of the first run.
func timed(t *testing.T, s step) measured {
	t.Helper()
	var best measured
	for i := range 3 {
		now := once(t, s)
		best = faster(best, now, i)
		if best.wall > 2*time.Second {
			break
		}
	}
	t.Logf("%s: %v", s.name, best.wall)
	return best
}

// faster is the first run with the least times of it and the later one.
func faster(best, now measured, run int) measured {
	if run == 0 {
		return now
	}
	best.wall, best.cpu = min(best.wall, now.wall), min(best.cpu, now.cpu)
	return best
}

func once(t *testing.T, s step) measured {
	runtime.GC()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	stop := make(chan struct{})
	peak := make(chan uint64)
	go func() { peak <- watch(stop) }()
	cpu, begun := cpuTime(), time.Now()
	out, err := s.Run()
	m := measured{wall: time.Since(begun), cpu: cpuTime() - cpu, out: out}
	require.NoError(t, err, s.name)
	close(stop)
	high := <-peak
	runtime.ReadMemStats(&after)
	m.allocs, m.bytes = after.Mallocs-before.Mallocs, after.TotalAlloc-before.TotalAlloc
	m.peak = high - min(high, before.HeapAlloc)
	return m
}

// watch is the most memory that objects took until stop is closed, looked at
// every two milliseconds.
func watch(stop chan struct{}) uint64 {
	sample := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	var high uint64
	for {
		metrics.Read(sample)
		high = max(high, sample[0].Value.Uint64())
		select {
		case <-stop:
			return high
		case <-time.After(2 * time.Millisecond):
		}
	}
}

// cpuTime is the processor time this process has had.
func cpuTime() time.Duration {
	var u syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// measurePack runs a program on a folder with the workbook, its last argument, and
// keeps the least times of three runs.
func measurePack(t *testing.T, made *bigbooks.Books, program string, args ...string) measured {
	t.Helper()
	dir := ledgerkit.Folder(t, made.WorkbookFolder())
	var best measured
	for i := range 3 {
		cmd := exec.Command(program, append(args, dir)...)
		begun := time.Now()
		text, err := cmd.CombinedOutput()
		now := measured{wall: time.Since(begun), cpu: cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()}
		require.NoError(t, err, string(text))
		now.peak = uint64(cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss) << 10
		best = faster(best, now, i)
		if best.wall > 10*time.Second {
			break
		}
	}
	packed, _ := filepath.Glob(filepath.Join(dir, "reports", "*", "*"))
	for _, name := range packed {
		if info, err := os.Stat(name); err == nil {
			best.out += info.Size()
		}
	}
	return best
}

// benchText is the table as text.
func benchText(about, names, sizes []string, results map[string]map[string]measured) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "# What each step takes\n\nMade by `make bench`; %s, %s/%s, %d processors%s.\n\n", runtime.Version(),
		runtime.GOOS, runtime.GOARCH, runtime.NumCPU(), processor())
	for _, line := range about {
		fmt.Fprintf(&b, "- %s\n", line)
	}
	fmt.Fprint(&b, "\nSeconds are wall clock, processor seconds count all cores; both are the least of three runs, or of "+
		"one that took long.\n"+
		"Peak is memory in use above what was there before; of the whole pack, the process's. Growth is processor "+
		"time against\n"+
		"that of `year`.\n"+
		"Rows that begin with `raw` are what a bare library takes for the same bytes or pages, in the same run.\n\n```\n")
	for _, size := range sizes {
		fmt.Fprintf(&b, "%-55s %8s %9s %12s %9s %8s %8s %7s\n", size, "seconds", "processor", "allocations", "MB in all",
			"MB peak", "MB out", "growth")
		for _, name := range names {
			m, ok := results[size][name]
			if !ok {
				continue
			}
			growth := "-"
			if first := results[sizes[0]][name]; size != sizes[0] && first.cpu > 0 {
				growth = fmt.Sprintf("%.1f", float64(m.cpu)/float64(first.cpu))
			}
			fmt.Fprintf(&b, "%-55s %8.3f %9.3f %12d %9.1f %8.1f %8.2f %7s\n", name, m.wall.Seconds(), m.cpu.Seconds(), m.allocs,
				float64(m.bytes)/1e6, float64(m.peak)/1e6, float64(m.out)/1e6, growth)
		}
		fmt.Fprintln(&b)
	}
	fmt.Fprint(&b, "```\n")
	return b.Bytes()
}

// processor names the machine's processor where the system tells it.
func processor() string {
	text, _ := os.ReadFile("/proc/cpuinfo")
	for _, line := range strings.Split(string(text), "\n") {
		if name, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(name) == "model name" {
			return "," + value
		}
	}
	return ""
}
