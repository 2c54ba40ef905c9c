package testkit

import "testing/fstest"

// InventedCountry is the tax tables of an invented country, XX: other line names in another order, no parts, costs of
// stock taken and given on one line, one line for most expenses.
var InventedCountry = fstest.MapFS{
	"lines-xx.toml": {Data: []byte(`
country = "XX"
form = "Form K"
first_year = 2020
last_year = 2030
[holds]
profit = "Z"
cost = "S"
expenses = "E"
[money]
code = "XTS"
name = "test money"
[[line]]
line = "Z"
label = "Result"
adds = ["M", "-S", "-E"]
[[line]]
line = "M"
label = "Money in"
takes = ["gross receipts", "-refunds", "other income"]
[[line]]
line = "S"
label = "Goods used"
takes = ["opening stock", "acquired", "-kept or donated", "supplies bought", "parts", "outside work", "-closing stock"]
[[line]]
line = "E"
label = "Expenses"
adds = ["E1", "E2"]
[[line]]
line = "E1"
label = "Roads and channels"
takes = ["trips", "fees", "delivery cost"]
[[line]]
line = "E2"
label = "The rest"
takes = ["depreciation", "equipment above the limit", "equipment at once", "supplies when used", "expense: advertising", "expense: insurance",
  "expense: legal and professional", "expense: office", "expense: booth rent", "expense: storage", "expense: repairs", "expense: small tools",
  "expense: licences", "expense: utilities", "expense: training", "expense: other"]
`)},
	"depreciation-xx.toml": {Data: []byte(`
source = "an invented table"
[[table]]
life = "first year"
percent = ["100"]
[[table]]
life = "5"
percent = ["50", "50"]
[[table]]
life = "7"
percent = ["50", "25", "25"]
`)},
	"records-xx.toml": {Data: []byte(`country = "XX"`)},
	"rates-xx.toml": {Data: []byte(`
currency = "XTS"
[[mileage]]
from = "2020-01-01"
cents_per_km = "30"
source = "an invented rate"
[[limit]]
from = "2020-01-01"
amount = "100.00"
source = "an invented limit"
`)},
}
