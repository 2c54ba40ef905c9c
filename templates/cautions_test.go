package templates

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCautionsPromiseNothing(t *testing.T) {
	c, err := Cautions()
	require.NoError(t, err)
	names := map[string]bool{}
	for _, x := range c.List {
		all := strings.ToLower(x.Words + " " + x.Authority)
		assert.NotRegexp(t, `\b(safe|compliant)\b`, all, x.Name)
		assert.NotEmpty(t, x.Words, x.Name)
		assert.NotEmpty(t, x.Authority, x.Name)
		assert.False(t, names[x.Name], x.Name)
		names[x.Name] = true
		w := x.When
		assert.NotZero(t, len(w.Groups)+len(w.Named)+len(w.Work)+len(w.Kinds), "%s applies to nothing", x.Name)
	}
	assert.NotEmpty(t, c.Always)
	assert.NotEmpty(t, c.RecordsOnly)
}

func TestWhenACautionIsCalledFor(t *testing.T) {
	c, err := Cautions()
	require.NoError(t, err)
	when := map[string]When{}
	for _, x := range c.List {
		when[x.Name] = x.When
	}
	assert.True(t, when["strippers and solvents"].Supply("Citrus gel", "stripper", "qt"))
	assert.True(t, when["oily rags"].Supply("Tung oil", "topcoat", "qt"))
	assert.False(t, when["oily rags"].Supply("Water stain", "stain", "qt"))
	assert.False(t, when["oily rags"].Supply("Foil tape", "protective", "roll"))
	assert.True(t, when["sprayed finishes"].Supply("Satin clear", "topcoat", "oz"))
	assert.False(t, when["sprayed finishes"].Supply("Satin clear", "topcoat", "qt"))
	assert.True(t, when["two-part coatings"].Supply("Clear 2K", "topcoat", "qt"))
	assert.True(t, when["units that can tip"].Kind("Tall Dresser"))
	assert.False(t, when["stone, tile, shell and grout dust"].Supply("Shellac, dewaxed", "topcoat", "qt"))
	assert.True(t, when["stone, tile, shell and grout dust"].Part("Inlay, shell"))
	lead := when["old paint"]
	assert.True(t, lead.Age(0, ""), "both unknown")
	assert.True(t, lead.Age(1960, "painted"))
	assert.False(t, lead.Age(1960, "clear"))
	assert.False(t, lead.Age(1990, "painted"))
	assert.True(t, lead.Task("Sanding"))
}
