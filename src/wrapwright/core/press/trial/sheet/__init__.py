"""The printed coupons of a trial: what is on one, and how they lie on the pages."""
