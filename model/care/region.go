package care

import "example.org/driploop/model/region"

// Region is what differs from country to country in First fill, apart from
// language and units.
type Region = region.Region
