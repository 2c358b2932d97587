"""Pictures of heat: temperatures over time with their bands, and how long n pieces want."""
