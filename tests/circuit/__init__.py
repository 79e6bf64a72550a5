"""Tests of networks, trees and laws."""
