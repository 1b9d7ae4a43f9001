package grouping

// Weights opens weight to the tests: those of all units of a bar.
func Weights(divisions ...int) []int {
	weights := make([]int, product(divisions))
	for at := range weights {
		weights[at] = weight(at, len(weights), divisions)
	}
	return weights
}
