//! Builds the page.
