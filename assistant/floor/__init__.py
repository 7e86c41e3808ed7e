"""What follows from a job: heights, depths, tally, order, finish, and how certain they are."""
