"""What several figures ask of a record, one module a subject; a family imports from here and from no other family."""
