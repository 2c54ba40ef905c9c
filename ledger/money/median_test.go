package money

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestMedian(t *testing.T) {
	_, ok := Median(nil)
	assert.False(t, ok)
	for _, c := range []struct {
		of   []Cents
		want Cents
	}{{[]Cents{3}, 3}, {[]Cents{5, 1, 3}, 3}, {[]Cents{2, 1}, 2}, {[]Cents{4, 3}, 4}, {[]Cents{-1, 0, 5, 1}, 0}} {
		got, ok := Median(c.of)
		assert.True(t, ok)
		assert.Equal(t, c.want, got, c.of)
	}
}
