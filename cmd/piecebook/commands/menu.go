package commands

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"piecebook/cmd/piecebook/booksdir"
	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/report/words"
)

// errEnd is the end of what is typed: the window was closed.
var errEnd = errors.New("nothing more is typed")

// onMenu is the menu while it is open.
type onMenu struct {
	terminal.Console
	command func([]string, terminal.Console) int
	typed   *bufio.Reader
	books   string // the books folder; blank: not known yet
	files   []string
}

// choice is a line of the menu.
type choice struct {
	words string
	books bool // the books folder is asked for first, where it is not known
	do    func(*onMenu) error
}

// choices are the lines of the menu, numbered from 1.
func choices() []choice {
	return []choice{
		{"Make the month's pack", true, (*onMenu).month},
		{"Check my records", true, (*onMenu).check},
		{"Start a new book", false, (*onMenu).newBook},
		{"Which kinds pay", true, func(m *onMenu) error { return m.runIn("kinds") }},
		{"What to offer for a piece", true, (*onMenu).offer},
		{"The year's records", true, (*onMenu).year},
		{"Print cards to fill in by hand", true, func(m *onMenu) error { return m.runIn("cards") }},
		{"Read the guide", false, func(m *onMenu) error { return m.Run("--out", m.ProgramDir, "guide") }},
		{"Use other books", false, func(m *onMenu) error { m.books = ""; return m.find(true) }},
	}
}

// menu asks what to do until nothing more is wanted. run runs a command as if it
// had been typed and gives its exit status.
func menu(w terminal.Console, run func([]string, terminal.Console) int) {
	m := &onMenu{Console: w, command: run, typed: bufio.NewReader(w.In)}
	m.Wrote = func(path string) { m.files = append(m.files, path) }
	if found := booksdir.Near(m.ProgramDir); len(found) == 1 {
		m.books = found[0]
	}
	fmt.Fprintln(m.Out, "piecebook: what each refinished piece cost, and what it earned.")
	if inArchive(m.ProgramDir) {
		fmt.Fprintln(m.Out, "\nThe program still stands in the downloaded archive, where what it makes is lost. Close this "+
			"window, right-click\nthe archive, choose Extract All, and double-click the program in the new folder.")
		_, _ = m.ask("\nPress Enter to close this window.")
		return
	}
	for {
		if err := m.round(); err != nil {
			return
		}
	}
}

// inArchive says that a folder is one that Windows unpacked a program to by itself,
// as a double click on it within a .zip does, and will delete.
func inArchive(dir string) bool {
	below, err := filepath.Rel(os.TempDir(), dir)
	return err == nil && filepath.IsLocal(below) && strings.Contains(strings.ToLower(below), ".zip")
}

// round shows the menu once and does what is chosen.
func (m *onMenu) round() error {
	fmt.Fprintln(m.Out)
	if m.books == "" {
		fmt.Fprintln(m.Out, "Books: none yet. 3 starts a new book; 9 finds the one you have.")
	} else {
		fmt.Fprintf(m.Out, "Books: %s\n", m.books)
	}
	fmt.Fprintln(m.Out)
	for i, c := range choices() {
		fmt.Fprintf(m.Out, "  %d  %s\n", i+1, c.words)
	}
	fmt.Fprintf(m.Out, "  0  Close\n\n")
	typed, err := m.ask("Type a number and press Enter:")
	if err != nil {
		return err
	}
	number := strings.Trim(typed, ".) ")
	if number == "0" {
		return errEnd
	}
	if number == "" {
		return nil
	}
	at := slices.IndexFunc(numbers(len(choices())), func(n string) bool { return n == number })
	if at < 0 {
		fmt.Fprintf(m.Out, "%q is not on the menu. Type a number from 0 to %d.\n", typed, len(choices()))
		return nil
	}
	fmt.Fprintln(m.Out)
	chosen := choices()[at]
	if chosen.books {
		if err := m.find(false); err != nil || m.books == "" {
			return err
		}
	}
	return chosen.do(m)
}

func numbers(n int) []string {
	out := make([]string, n)
	for i := range out {
		out[i] = fmt.Sprint(i + 1)
	}
	return out
}

// ask prints a question and gives what is typed, without outer blanks.
func (m *onMenu) ask(question string) (string, error) {
	fmt.Fprint(m.Out, question+" ")
	line, err := m.typed.ReadString('\n')
	if err != nil && line == "" {
		fmt.Fprintln(m.Out)
		return "", errEnd
	}
	return strings.TrimSpace(line), nil
}

// Run runs a command as if it had been typed, and offers to open the first
// page or workbook that it made.
func (m *onMenu) Run(args ...string) error {
	if m.do(args...) != cli.ExitDone {
		_, err := m.ask("\nPress Enter for the menu.")
		return err
	}
	return m.offerToOpen()
}

// do runs a command and gives its exit status.
func (m *onMenu) do(args ...string) int {
	m.files = nil
	w := m.Console
	w.OwnWindow, w.InMenu = false, true
	return m.command(args, w)
}

// offerToOpen opens the first page or workbook that a command made, unless that is
// not wanted.
func (m *onMenu) offerToOpen() error {
	at := slices.IndexFunc(m.files, func(f string) bool {
		return slices.Contains([]string{".html", ".pdf", ".xlsx"}, filepath.Ext(f))
	})
	if at < 0 {
		return nil
	}
	file := m.files[at]
	typed, err := m.ask(fmt.Sprintf("\nPress Enter to open %s, or type n and press Enter:", filepath.Base(file)))
	if err != nil || strings.HasPrefix(strings.ToLower(typed), "n") {
		return err
	}
	if err := m.Show(file); err != nil {
		fmt.Fprintf(m.Out, "It could not be opened from here. It is: %s\n", file)
	}
	return nil
}

// runIn is run for the books folder.
func (m *onMenu) runIn(args ...string) error {
	return m.Run(append([]string{"--books", m.books}, args...)...)
}

// check tells what is to put right, and offers to write the lines for settings.toml
// that would, as long as there are some.
func (m *onMenu) check() error {
	for {
		status := m.do("--books", m.books, "check")
		c := &cli.Call{Books: m.books}
		b, err := c.Open(0)
		if err == nil && len(b.Read.SettingsLines()) == 0 && status == cli.ExitDone {
			return nil
		}
		if err != nil || len(b.Read.SettingsLines()) == 0 {
			_, err := m.ask("\nPress Enter for the menu.")
			return err
		}
		typed, err := m.ask("\nTo have these lines written into settings.toml, type w and press Enter; to leave it as it " +
			"is, press Enter:")
		if err != nil || !strings.EqualFold(typed, "w") {
			return err
		}
		done, err := c.WriteSettings(b)
		switch {
		case err != nil:
			fmt.Fprintln(m.Out, words.FileProblem(err))
			return nil
		case !done:
			fmt.Fprintln(m.Out, "They do not fit into the file as it is. Open it in a text editor, and paste them.")
			return nil
		}
		fmt.Fprint(m.Out, "Written. What is read now:\n\n")
	}
}

// month makes a pack, or a draft of it where lines cannot be read and it is wanted.
func (m *onMenu) month() error {
	typed, err := m.ask("Which month, as 2026-03? Press Enter for the last one with records:")
	if err != nil {
		return err
	}
	args := append([]string{"--books", m.books, "month"}, given(typed)...)
	switch m.do(args...) {
	case cli.ExitDone:
		return m.offerToOpen()
	case cli.ExitProblems:
	default:
		_, err := m.ask("\nPress Enter for the menu.")
		return err
	}
	typed, err = m.ask("\nFor a draft without these lines, type d and press Enter; for the menu, press Enter:")
	if err != nil || !strings.EqualFold(typed, "d") {
		return err
	}
	return m.Run(append(args, "--draft")...)
}

func (m *onMenu) year() error {
	typed, err := m.ask("Which year, as 2026? Press Enter for the last one with records:")
	if err != nil {
		return err
	}
	return m.runIn(append([]string{"year"}, given(typed)...)...)
}

func (m *onMenu) offer() error {
	kind, err := m.ask("What kind of piece is it, such as dresser?")
	if err != nil || kind == "" {
		return err
	}
	args := []string{"--books", m.books, "offer", "--kind", kind}
	for _, x := range []struct{ flag, question string }{{"--asked", "What is asked for it?"},
		{"--sells-for", "What do you think it sells for?"}, {"--hours", "How many hours of work?"}} {
		typed, err := m.ask(x.question + " Press Enter where that is not known:")
		if err != nil {
			return err
		}
		if typed != "" {
			args = append(args, x.flag, strings.TrimPrefix(typed, "$"))
		}
	}
	m.do(args...)
	_, err = m.ask("\nPress Enter for the menu.")
	return err
}

// given is one word, none where nothing was typed. What begins with a dash is
// no word of the menu's questions.
func given(typed string) []string {
	if typed = strings.TrimLeft(typed, "-"); typed == "" {
		return nil
	}
	return []string{typed}
}

func (m *onMenu) newBook() error {
	usual := filepath.Join(m.ProgramDir, "books")
	typed, err := m.ask(fmt.Sprintf("In which new folder? Press Enter for %s:", usual))
	if err != nil {
		return err
	}
	dir := asFolder(typed, m.ProgramDir)
	if dir == "" {
		dir = usual
	}
	if err := m.Run("start", dir); err != nil {
		return err
	}
	if booksdir.IsBooks(dir) {
		m.books = dir
	}
	return nil
}

// find asks where the books are, where that is not known.
func (m *onMenu) find(again bool) error {
	if m.books != "" {
		return nil
	}
	near := booksdir.Near(m.ProgramDir)
	if len(near) == 1 && !again {
		m.books = near[0]
		return nil
	}
	if len(near) == 0 && len(booksdir.Files(m.ProgramDir)) > 0 {
		near = []string{m.ProgramDir}
	}
	for i, dir := range near {
		fmt.Fprintf(m.Out, "  %d  %s\n", i+1, dir)
	}
	question := "Drag the folder of your books, or your workbook, into this window, or type its name, and press Enter:"
	switch {
	case len(near) == 1:
		question = "Press Enter for this one, or drag another folder into this window and press Enter:"
	case len(near) > 1:
		question = "Type the number of one of these, or drag another folder into this window, and press Enter:"
	}
	typed, err := m.ask(question)
	if typed == "" && len(near) == 1 {
		typed = "1"
	}
	if err != nil || typed == "" {
		return err
	}
	if at := slices.Index(numbers(len(near)), typed); at >= 0 {
		m.books = near[at]
		return nil
	}
	dir := asFolder(typed, m.ProgramDir)
	if _, err := os.Stat(dir); err != nil {
		fmt.Fprintf(m.Out, "There is no folder or file %s.\n", dir)
		return nil
	}
	m.books = dir
	return nil
}

// asFolder is a folder's name as it is typed or dragged into a window: in
// quotation marks where it has blanks, or with a backslash before each.
func asFolder(typed, from string) string {
	typed = strings.TrimSpace(typed)
	for _, quote := range []string{`"`, "'"} {
		if len(typed) > 1 && strings.HasPrefix(typed, quote) && strings.HasSuffix(typed, quote) {
			typed = typed[1 : len(typed)-1]
		}
	}
	if typed == "" {
		return ""
	}
	if _, err := os.Stat(typed); err != nil && filepath.Separator == '/' {
		typed = strings.ReplaceAll(typed, `\`, "")
	}
	if !filepath.IsAbs(typed) {
		typed = filepath.Join(from, typed)
	}
	return filepath.Clean(typed)
}
