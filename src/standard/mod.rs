//! Numbers of published standards, each with its clause and source.
