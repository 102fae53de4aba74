package elevation

// drawInside draws what is in the tank, from the back to the front.
func (d *sheet) drawInside() {
	if !d.tankKnown {
		return
	}
	d.drawLight()
	d.drawGravelBack()
	d.drawOrnaments()
	d.drawPlants()
	d.drawFilter()
	d.drawHeater()
	d.drawThermometer()
	d.drawGravelFront()
	d.drawSurface()
	d.drawBag()
	d.placeWeight()
	d.write()
	d.drawFish()
}
