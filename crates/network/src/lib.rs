//! From a site to the electrical layout and its operating states.
