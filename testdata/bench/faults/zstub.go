package main

func mutants(*bench)  {}
func hostiles(*bench) {}
func storms(*bench)   {}
