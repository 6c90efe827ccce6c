"""What sitters noted: the CSV files in logs/ of the farm folder, read by `binder check`."""
