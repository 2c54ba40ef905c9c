package templates

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

//go:embed cautions.json
var cautionsJSON []byte

// CautionSet is the usual cautions, with the two lines that hold always.
type CautionSet struct {
	Always      string    `json:"always"`       // on every sheet: label, codes, practice
	RecordsOnly string    `json:"records_only"` // on every page of money
	List        []Caution `json:"cautions"`
}

// Caution is one usual caution: when the records call for it, its words, and
// on whose authority.
type Caution struct {
	Name      string `json:"name"`
	If        string `json:"if"` // what it depends on beside the records, as words after the name; blank: nothing
	When      When   `json:"when"`
	Words     string `json:"words"` // days in it are written {2026-04-28}, for the page to print in its style
	Authority string `json:"authority"`
}

// When says what in the records calls for a caution. Words are looked for
// without regard to case.
type When struct {
	// Groups of supplies. With ContainerUnits, only those in such containers.
	Groups []string `json:"groups"`
	// ContainerUnits are the units spray cans are sold by.
	ContainerUnits []string `json:"container_units"`
	// Named are parts of names that call for it whatever the group: of a
	// supply, or of a part put on the piece. NotNamed takes a supply out.
	Named    []string `json:"named"`
	NotNamed []string `json:"not_named"`
	// Work is parts of words for a task at the bench.
	Work []string `json:"work"`
	// Kinds are parts of a piece's kind.
	Kinds []string `json:"kinds"`
	// MadeBefore, where set, narrows it to pieces made before that year or of
	// unknown age, with one of the OldFinishes ("" is unknown).
	MadeBefore int      `json:"made_before"`
	OldFinish  []string `json:"old_finish"`
}

// Cautions reads the shipped cautions.
func Cautions() (CautionSet, error) {
	var c CautionSet
	if err := json.Unmarshal(cautionsJSON, &c); err != nil {
		return c, fmt.Errorf("cautions.json: %w", err)
	}
	return c, nil
}

// Supply says that a supply calls for it, whatever piece it is put on.
func (w When) Supply(name, group, unit string) bool {
	if has(name, w.NotNamed) {
		return false
	}
	if has(name, w.Named) {
		return true
	}
	return slices.Contains(w.Groups, group) && (len(w.ContainerUnits) == 0 || slices.Contains(w.ContainerUnits, unit))
}

// Task says that a task at the bench calls for it.
func (w When) Task(task string) bool { return has(task, w.Work) }

// Part says that the name of a part or the words on a piece call for it.
func (w When) Part(name string) bool { return has(name, w.Named) && !has(name, w.NotNamed) }

// Kind says that a kind of piece calls for it.
func (w When) Kind(kind string) bool { return has(kind, w.Kinds) }

// Age says that a piece's age and old finish do not rule it out. Made is 0
// where unknown.
func (w When) Age(made int, oldFinish string) bool {
	return w.MadeBefore == 0 || made < w.MadeBefore && slices.Contains(w.OldFinish, oldFinish)
}

// has looks for words at the start of a word in text: 'oil' is in 'Tung oil'
// and in 'oils', not in 'foil'. A space after it asks for the whole word:
// 'shell ' is not in 'shellac'.
func has(text string, words []string) bool {
	if len(words) == 0 {
		return false
	}
	text = " " + strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return strings.ContainsRune(" \t,;:/()+&.'\"", r)
	}), " ") + " "
	for _, w := range words {
		if strings.Contains(text, " "+w) {
			return true
		}
	}
	return false
}
