//go:build !linux

package engine

func (Machine) alarm() alarm { return newAlarm() }
