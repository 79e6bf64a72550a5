"""What a circuit is: networks, nests of series and parallel groups, and the laws of elements."""
