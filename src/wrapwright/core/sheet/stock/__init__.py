"""Many equal rectangles on the fewest or cheapest sheets, with the proof that fewer cannot do."""
