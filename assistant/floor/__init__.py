"""What a job comes to: heights, depths, tally, order, finish, and how sure all that is."""
