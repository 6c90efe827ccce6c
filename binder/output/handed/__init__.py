"""What was handed over: the ledger, revisions, change packs and corrections by pen."""
