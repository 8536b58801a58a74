update pile_statuses set sanitisation_outcome = 'in-progress';
