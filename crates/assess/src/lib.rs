//! Rules and verdict over a network.
