package page

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAmount(t *testing.T) {
	for _, c := range []struct {
		cents int64
		sign  string
		full  bool
		want  string
	}{
		{0, "$", false, "–"}, {0, "$", true, "$0.00"}, {5, "", false, "0.05"}, {-5, "$", false, "($0.05)"},
		{123456, "€", false, "€1,234.56"}, {100000000, "PLN ", false, "PLN 1,000,000.00"}, {-99999, "", false, "(999.99)"},
		{math.MaxInt64, "", false, "92,233,720,368,547,758.07"}, {math.MinInt64, "", false, "(92,233,720,368,547,758.08)"},
	} {
		assert.Equal(t, c.want, Amount(c.cents, c.sign, c.full), c.cents)
	}
}

func TestSign(t *testing.T) {
	assert.Equal(t, []string{"$", "€", "£", "PLN ", ""}, []string{Sign("USD"), Sign("EUR"), Sign("GBP"),
		Sign("PLN"), Sign("")})
}

func TestSpans(t *testing.T) {
	assert.Equal(t, 4, Styled(Group, Text("a")).Spans(4))
	assert.Equal(t, 3, Styled(Total, Text("a"), Empty(), Empty(), Money(0)).Spans(4), "a dash is a figure")
	assert.Equal(t, 1, Line(Text("a"), Empty()).Spans(4))
}

func ExampleAmount() {
	fmt.Println(Amount(-123456, Sign("USD"), false), Amount(0, "", false))
	// Output: ($1,234.56) –
}
