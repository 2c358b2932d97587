"""The job file and the report: models at the door, and the pages and schemas made from them."""
